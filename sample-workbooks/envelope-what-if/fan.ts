import { call, keepBlanks, type Setting, writeSettings } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { fanDemandCell, fanDemandRows, fanDemandWords, writeFanDemandTable, writeFlowDeviceTable } from "../blocks/fan";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, palette, style } from "../blocks/style";
import { between, validateTemperatures } from "../blocks/validation";
import { chosen, footer, sheets, variantColumns } from "./layout";
import { fan, openings } from "./scenario";

const typed = { highest: 6, reserve: 7, indoors: 8, outdoors: 9, density: 10 } as const;
const deviceAt = 13;
const settingsAt = 24;
const settingsCount = 10;
const tableAt = settingsAt + settingsCount + 4;
const secondAt = tableAt + fanDemandRows + 5;

/** What the fan of the test must give, for the base and for the variant, in both directions. */
export function fanPage(): Page {
  const lastRow = secondAt + fanDemandRows + 2;
  const sheet = new Sheet(sheets.fan, [1.5, 44, 13, 12, 9, 9, 22, 33], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:H${settingsAt + settingsCount}`, `B${tableAt - 2}:H${lastRow}`],
    titleRows: "1:4",
    pages: 2,
    footer,
    workingPaper: true,
  });
  const lead =
    "Which flow the device must give at the highest pressure, which opening that is, and how far the reserve reaches.";
  writePageHead(sheet, letterhead, ["B", "H"], "Fan for the test", lead);
  sheet.heightOf(15, 5, tableAt - 3).heightOf(13, tableAt - 2, lastRow);
  writeExpectations(sheet);
  const device = writeFlowDeviceTable(sheet, deviceAt, openings);
  const blocks = {
    Base: writeSettingsFor(sheet, "Base", ["B", "C"]),
    Variant: writeSettingsFor(sheet, "Variant", ["G", "H"]),
  };
  for (const [which, at] of [
    ["Base", tableAt],
    ["Variant", secondAt],
  ] as const)
    writeDemandTable(sheet, which, at, blocks[which], device.range);
  const names: Record<string, string> = { ...device.names };
  for (const [which, at] of [
    ["Base", tableAt],
    ["Variant", secondAt],
  ] as const)
    for (const [name, symbol] of [
      ["FanFlow", "q_fan_dep"],
      ["Opening", "opening_dep"],
      ["FanPressure", "p_fan_dep"],
    ] as const)
      names[`${which}${name}`] = onSheet(sheets.fan, fanDemandCell(at, symbol));
  return { sheet, names };
}

function writeExpectations(sheet: Sheet): void {
  writeHeading(sheet, 5, ["B", "H"], "What is expected of the test");
  const rows = [
    [
      typed.highest,
      "Highest induced pressure",
      fan.highest,
      "Pa",
      decimals(0),
      "ISO 9972:2015 asks for 50 Pa or more (C); a little more keeps room",
    ],
    [
      typed.reserve,
      "Leakage that may be met, times the limit",
      fan.reserve,
      "×",
      decimals(2),
      "common practice, no source: a first test often misses the limit",
    ],
    [
      typed.indoors,
      "Indoor temperature on the day of the test",
      fan.indoors,
      "°C",
      decimals(0),
      "changes the flow by some 3 % per 10 K between inside and outside",
    ],
    [typed.outdoors, "Outdoor temperature", fan.outdoors, "°C", decimals(0), ""],
    [
      typed.density,
      "Density that the certificate states its flows for",
      fan.calibrationDensity,
      "kg/m³",
      decimals(4),
      "certificate of the flow device",
    ],
  ] as const;
  for (const [row, label, value, unit, format, source] of rows) {
    sheet.put(`B${row}`, label, looks.label).put(`C${row}`, value, input(format)).put(`D${row}`, unit, looks.unit);
    sheet
      .put(`E${row}`, source || null, { ...looks.noteLine, alignment: { vertical: "center" } })
      .paint(`F${row}:H${row}`, looks.label);
  }
  validateTemperatures(
    sheet,
    { indoors: `C${typed.indoors}`, outdoors: `C${typed.outdoors}` },
    "Expected on the day of the test",
  );
  sheet.validate(
    between(`C${typed.highest}`, 10, 100, "Highest pressure, Pa", "As a magnitude, without the baseline."),
    between(
      `C${typed.reserve}`,
      1,
      20,
      "Reserve",
      "1 is a house that just meets its limit; 1.5 leaks half as much again.",
    ),
    between(`C${typed.density}`, 0.9, 1.5, "Calibration density", "1.2041 kg/m³ is dry air at 20 °C and 101 325 Pa."),
  );
}

function writeSettingsFor(sheet: Sheet, which: "Base" | "Variant", columns: readonly [string, string]): string {
  sheet.formula(`${columns[0]}${settingsAt - 1}`, `"${which}"&IF(${which}Index="","",": "&${which}Name)`, looks.group);
  if (which === "Base") writeHeading(sheet, settingsAt - 2, ["B", "H"], "Handed to the add-in");
  const area = `${chosen(which, variantColumns.quantity)}="leakage area per envelope area"`;
  const definition = `IF(${area},IF(${chosen(which, variantColumns.pressure)}=4,"effective 4 Pa","equivalent 10 Pa"),"")`;
  const settings: readonly Setting[] = [
    ["quantity", chosen(which, variantColumns.quantity)],
    ["reference pressure", chosen(which, variantColumns.pressure), decimals(0)],
    ["leakage area definition", definition],
    ["volume", chosen(which, variantColumns.volume), decimals(1)],
    ["envelope area", chosen(which, variantColumns.envelopeArea), decimals(1)],
    ["floor area", chosen(which, variantColumns.floorArea), decimals(1)],
    ["exponent", keepBlanks("Exponent"), decimals(2)],
    ["indoor temperature", keepBlanks(`$C$${typed.indoors}`), decimals(1)],
    ["outdoor temperature", keepBlanks(`$C$${typed.outdoors}`), decimals(1)],
    ["calibration density", keepBlanks(`$C$${typed.density}`), decimals(4)],
  ];
  return writeSettings(sheet, columns, settingsAt, settings);
}

function writeDemandTable(sheet: Sheet, which: "Base" | "Variant", at: number, block: string, openings: string): void {
  sheet.formula(`B${at - 2}`, `"${which}"&IF(${which}Index="","",": "&${which}Name)`, looks.heading);
  sheet.paint(`C${at - 2}:H${at - 2}`, looks.headingRule);
  const limit = chosen(which, variantColumns.limit);
  const given = [limit, ...[typed.reserve, typed.highest, typed.indoors, typed.outdoors].map((row) => `$C$${row}`)];
  const demand = call("FANDEMAND", `${limit}*$C$${typed.reserve}`, `$C$${typed.highest}`, block, openings);
  writeFanDemandTable(sheet, at, `IF(COUNT(${given.join(",")})<${given.length},"",${demand})`);
  (["dep", "pres"] as const).forEach((direction, index) => {
    const row = at + fanDemandRows + index;
    sheet.formula(`B${row}`, fanDemandWords(at, direction), style({ bold: true })).merge(`B${row}:H${row}`);
  });
}
