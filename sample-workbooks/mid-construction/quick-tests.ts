import { call, keepBlanks } from "../blocks/add-in";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, shortDay, style } from "../blocks/style";
import { between, day, text, validateTemperatures } from "../blocks/validation";
import { gaugeFactor } from "./basis";
import { footer, sheets } from "./layout";
import { quickTests } from "./scenario";

const count = 12;
/** Rows that are typed into. */
export const quickTyped = { first: 8, last: 7 + count } as const;

/** Rows of the results, one for each row of readings; day in B, flow at 50 Pa in H. */
export const quickRows = { first: quickTyped.last + 5, last: quickTyped.last + 4 + count } as const;

/** One reading a day while the barrier is being closed, in one row each; every row is carried to 50 Pa in one call. */
export function quickPage(): Page {
  const last = quickRows.last + 5;
  const sheet = new Sheet(sheets.quick, [1.5, 12, 42, ...Array<number>(11).fill(10), 14], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:O${last}`],
    pages: 1,
    footer,
  });
  const lead =
    "Depressurization, one reading a row: is the barrier on its way? Pressures are indoors minus outdoors, below zero. Spare rows may stay blank.";
  writePageHead(sheet, letterhead, ["B", "O"], "Quick tests, one reading each", lead);
  sheet.heightOf(14, 5, last);
  writeReadings(sheet);
  writeResults(sheet);
  addRules(sheet);
  sheet.put(
    `B${quickRows.last + 2}`,
    "Without a measured exponent n is taken as 0.65 with a standard deviation of 0.057 among houses: the further the reading is from 50 Pa, the wider the limits, which hold this alone. " +
      "The standard uncertainty beside them, with instruments, adds the flow device, the gauge and repeating the reading, from the sheet House and instruments. A measured n goes into its column with its standard uncertainty. Flow as the gauge shows it at calibration density; the factor carries it " +
      "to the flow through the envelope at reference conditions (20 °C, 101 325 Pa, dry). Humidity is taken as 50 %. One reading is no proof for a certificate.",
    looks.note,
  );
  sheet.merge(`B${quickRows.last + 2}:O${last - 1}`);
  return { sheet, names: {} };
}

function writeReadings(sheet: Sheet): void {
  writeHeading(sheet, quickTyped.first - 3, ["B", "O"], "Readings");
  writeColumnHeads(sheet, quickTyped.first - 1, "B", [
    "<day",
    "<stage of the work",
    "pressure|Pa",
    "baseline|Pa",
    "flow shown|m³/h",
    "indoors|°C",
    "outdoors|°C",
    "barometer|Pa",
    "n|if known",
    "u(n)|if known",
  ]);
  for (let row = quickTyped.first; row <= quickTyped.last; row++) {
    const test = quickTests[row - quickTyped.first];
    sheet.put(`B${row}`, test?.day ?? null, input(shortDay, "left"));
    sheet.put(`C${row}`, test?.stage ?? null, style({ shrink: true }, input(undefined, "left")));
    sheet.type(`D${row}`, test?.pressure ?? null, decimals(1)).type(`E${row}`, test?.baseline ?? null, decimals(1));
    sheet.type(`F${row}`, test?.flow ?? null, decimals(0)).type(`G${row}`, test?.indoors ?? null, decimals(1));
    sheet.type(`H${row}`, test?.outdoors ?? null, decimals(1)).type(`I${row}`, test?.barometer ?? null, decimals(0));
    sheet.type(`J${row}`, test?.exponent?.[0] ?? null, decimals(3));
    sheet.type(`K${row}`, test?.exponent?.[1] ?? null, decimals(3));
  }
}

function writeResults(sheet: Sheet): void {
  const { first, last } = quickRows;
  writeHeading(sheet, first - 3, ["B", "O"], "Carried to 50 Pa at reference conditions");
  writeColumnHeads(sheet, first - 1, "B", [
    "<day",
    "<stage of the work",
    "ρ indoors|kg/m³",
    "ρ outdoors|kg/m³",
    "factor",
    "flow|m³/h",
    "q50|m³/h",
    "lower, n|m³/h",
    "upper, n|m³/h",
    "std. unc., n|m³/h",
    "induced|Pa",
    "n used",
    "n50|1/h",
    "with instruments|std. unc., m³/h",
  ]);
  for (let row = first; row <= last; row++) {
    const read = row - first + quickTyped.first;
    sheet.formula(`B${row}`, `IF(B${read}="","",B${read})`, native(shortDay, "left"));
    sheet.formula(`C${row}`, `IF(C${read}="","",C${read})`, style({ shrink: true }, looks.label));
    const worth = `(RepeatUncertainty^2+DeviceUncertainty^2+(M${row}*GaugeUncertainty)^2)`;
    const known = `COUNT(H${row},K${row},M${row},RepeatUncertainty,DeviceUncertainty,GaugeUncertainty)<6`;
    sheet.formula(`O${row}`, `IF(${known},"",SQRT(K${row}^2+H${row}^2*${worth}))`, native(decimals(1)));
    const exponent = `IF(J${read}="",0.65,J${read})`;
    sheet.formula(`F${row}`, gaugeFactor(`D${row}`, `E${row}`, exponent), native(decimals(4)));
    // A reading without its sign would be measured against the baseline the wrong way round; text is above any number.
    sheet.formula(
      `G${row}`,
      `IF(OR(ISTEXT(F${read}),D${read}>0),NA(),IF(COUNT(F${read},F${row})<2,"",F${read}*F${row}))`,
      native(decimals(1)),
    );
    sheet.formula(`N${row}`, `IF(COUNT(H${row},InternalVolume)<2,"",H${row}/InternalVolume)`, native(decimals(3)));
  }
  const read = (letter: string, to = letter) => `${letter}${quickTyped.first}:${to}${quickTyped.last}`;
  const density = (temperature: string) => call("AIRDENSITY", keepBlanks(read(temperature)), keepBlanks(read("I")));
  sheet.addIn(`D${first}:D${last}`, density("G"), fromAddIn(decimals(4)));
  sheet.addIn(`E${first}:E${last}`, density("H"), fromAddIn(decimals(4)));
  const flows = `G${first}:G${last}`;
  const flow = call("ONEPOINTFLOW", flows, read("D"), keepBlanks(read("J", "K")), undefined, keepBlanks(read("E")));
  const digits = [1, 1, 1, 1, 1, 3];
  sheet.addIn(`H${first}:M${last}`, flow, (_, at) => style({ bold: at === 0 }, fromAddIn(decimals(digits[at] ?? 1))));
}

function addRules(sheet: Sheet): void {
  const column = (letter: string, to = letter) => `${letter}${quickTyped.first}:${to}${quickTyped.last}`;
  validateTemperatures(sheet, { indoors: column("G"), outdoors: column("H") });
  sheet.validate(
    day(column("B"), "Day", "The day of the reading."),
    text(column("C"), "Stage of the work", "What was closed and what was still open.", 60),
    between(column("D"), -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(column("E"), -20, 20, "Baseline, Pa", "Fan off and covered; 0 is a value, and what a blank means."),
    between(column("F"), 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
    between(column("I"), 50000, 110000, "Barometric pressure, Pa", "At the house, in Pa: 1013.25 hPa is 101 325 Pa."),
    between(column("J"), 0.4, 1.1, "Flow exponent n", "Only if it was measured in this house; blank: 0.65 is assumed."),
    between(column("K"), 0, 0.3, "Standard uncertainty of n", "Of the measured exponent; blank: 0.057."),
  );
}
