import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { tableHeads } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, shortDay, style } from "../blocks/style";
import { between, day, text, validateTemperatures } from "../blocks/validation";
import { gaugeFactor } from "./basis";
import { bySymbol, footer, sheets } from "./layout";
import { twoPointTest } from "./scenario";

const readings = { first: 17, last: 24 } as const;
const table = { first: 29, last: 40 } as const;
const result = table.last + 3;
const form = { label: "B", value: "F", unit: "G" } as const;

/** Repeats at two pressures give the flow and the exponent in ten minutes. */
export function twoPointPage(): Page {
  const sheet = new Sheet(sheets.twoPoint, [1.5, 31, 11, 11, 11, 12, 15, 27], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:H${result + 6}`],
    pages: 1,
    footer,
    workingPaper: true,
  });
  const lead =
    "Depressurization, a few repeats at about 50 and about 12.5 Pa: the flow, and the exponent of this house.";
  writePageHead(sheet, letterhead, ["B", "H"], "Quick test at two pressures", lead);
  sheet.heightOf(15, 5, result + 6);
  writeConditions(sheet);
  writeRepeats(sheet);
  writeOutcome(sheet);
  return { sheet, names: { TwoPointFlow: onSheet(sheets.twoPoint, `F${result + 1}`) } };
}

function writeConditions(sheet: Sheet): void {
  writeHeading(sheet, 5, ["B", "H"], "Day and air");
  writeFormLines(sheet, 6, form, [
    { label: "Day", typed: twoPointTest.day, format: shortDay, align: "left" },
    { label: "Temperature indoors", typed: twoPointTest.indoors, format: decimals(1), unit: "°C" },
    { label: "Temperature outdoors", typed: twoPointTest.outdoors, format: decimals(1), unit: "°C" },
    { label: "Barometric pressure on site", typed: twoPointTest.barometer, format: decimals(0), unit: "Pa" },
  ]);
  sheet
    .put("B10", "Stage of the work", looks.label)
    .type("C10", twoPointTest.stage, undefined, "left")
    .merge("C10:F10");
  for (const [row, label, temperature] of [
    [11, "Density of the air indoors, ρ_{i}", "F7"],
    [12, "Density of the air outdoors, ρ_{e}", "F8"],
  ] as const) {
    sheet.rich(`B${row}`, label, looks.label).paint(`C${row}:E${row}`, looks.label).put(`G${row}`, "kg/m³", looks.unit);
    sheet.addIn(`F${row}`, call("AIRDENSITY", keepBlanks(temperature), keepBlanks("F9")), fromAddIn(decimals(4)));
  }
  validateTemperatures(sheet, { indoors: "F7", outdoors: "F8" });
  sheet.validate(
    day("F6", "Day", "The day of the readings."),
    between("F9", 50000, 110000, "Barometric pressure, Pa", "At the house, in Pa: 1013.25 hPa is 101 325 Pa."),
    text("C10:F10", "Stage of the work", "What was closed and what was still open.", 60),
  );
}

function writeRepeats(sheet: Sheet): void {
  const { first, last } = readings;
  writeHeading(sheet, first - 3, ["B", "H"], "Readings");
  writeColumnHeads(sheet, first - 1, "B", [
    "<repeat",
    "higher|pressure, Pa",
    "lower|pressure, Pa",
    "flow at the|higher, m³/h",
    "flow at the|lower, m³/h",
    "baseline|Pa",
  ]);
  for (let row = first; row <= last; row++) {
    const at = row - first;
    sheet.put(`B${row}`, at + 1, style({ align: "left" }, looks.label));
    sheet.type(`C${row}`, twoPointTest.high[at]?.[0] ?? null, decimals(1));
    sheet.type(`D${row}`, twoPointTest.low[at]?.[0] ?? null, decimals(1));
    sheet.type(`E${row}`, twoPointTest.high[at]?.[1] ?? null, decimals(0));
    sheet.type(`F${row}`, twoPointTest.low[at]?.[1] ?? null, decimals(0));
    sheet.type(`G${row}`, twoPointTest.baseline[at] ?? null, decimals(1));
  }
  sheet.validate(
    between(`C${first}:D${last}`, -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(`E${first}:F${last}`, 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
    between(`G${first}:G${last}`, -20, 20, "Baseline, Pa", "Fan off and covered, before or after; 0 is a value."),
  );
}

function writeOutcome(sheet: Sheet): void {
  const { first, last } = readings;
  writeHeading(sheet, table.first - 2, ["B", "H"], "Flow and exponent, from the flows as shown");
  writeColumnHeads(sheet, table.first - 1, "B", tableHeads);
  const flows = `E${first}:F${last}`;
  const pressures = `C${first}:D${last}`;
  // Readings without their sign would be measured against the baseline the wrong way round.
  const below = `IF(${pressures}="","",IF(${pressures}>0,NA(),${pressures}))`;
  const whole = call("TWOPOINTFLOW", flows, below, "50", keepBlanks(`G${first}:G${last}`));
  const digits = [1, 4, 3, 2, 4, 0, 2, 1, 0, 2, 1, 0];
  sheet.addIn(`B${table.first}:H${table.last}`, `IF(COUNTA(${pressures},${flows})=0,"",${whole})`, (row, column) =>
    column < 2 || column > 4
      ? style({ shrink: true, size: column > 4 ? 8 : 9, indent: column === 5 ? 1 : 0 }, fromAddIn(undefined, "left"))
      : fromAddIn(decimals(digits[row] ?? 1)),
  );
  const symbols = `$C$${table.first}:$C$${table.last}`;
  const value = bySymbol(symbols, `$D$${table.first}:$D$${table.last}`);
  writeHeading(sheet, result - 1, ["B", "H"], "At reference conditions");
  writeFormLines(sheet, result, form, [
    {
      label: "Factor from the flow shown",
      formula: gaugeFactor("F11", "F12", value("n")),
      format: decimals(4),
    },
    {
      label: "Flow through the envelope at 50 Pa, q_{50}",
      formula: `IF(COUNT(F${result},${value("q_p")})<2,"",F${result}*${value("q_p")})`,
      look: style({ bold: true }, native(decimals(1))),
      unit: "m³/h",
    },
    {
      label: "Air change rate of the finished house, n_{50}",
      formula: `IF(COUNT(F${result + 1},InternalVolume)<2,"",F${result + 1}/InternalVolume)`,
      look: style({ bold: true }, native(decimals(3))),
      unit: "1/h",
    },
  ]);
  sheet.put(
    `B${result + 4}`,
    "The limits hold the scatter of the repeats only. An exponent near 0.5 speaks of large, sharp openings, near 1 of long fine cracks; outside 0.5 to 1 the readings are repeated.",
    looks.note,
  );
  sheet.merge(`B${result + 4}:H${result + 5}`);
}
