import { call, keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import {
  guardedCell,
  placeIn,
  setWholeTestHeights,
  tableHeads,
  tableLook,
  wholeTestSymbols,
} from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { between, validateTemperatures } from "../blocks/validation";
import { type Direction, onceLogged, sheets } from "./layout";
import { argumentsOf } from "./readings";
import { conditions, footer } from "./scenario";

const settingsFirst = 14;

const typed = [
  { label: "volume", typed: conditions.volume, format: "0.0", unit: "m³" },
  { label: "envelope area", typed: conditions.envelopeArea, format: "0.0", unit: "m²" },
  { label: "indoor temperature", typed: conditions.indoorTemperature, format: decimals(1), unit: "°C" },
  { label: "outdoor temperature", typed: conditions.outdoorTemperature, format: decimals(1), unit: "°C" },
  { label: "barometric pressure", typed: conditions.barometer, format: "0", unit: "Pa" },
  { label: "indoor humidity", typed: conditions.indoorHumidity, format: "0.00", unit: "a fraction" },
  { label: "outdoor humidity", typed: conditions.outdoorHumidity, format: "0.00", unit: "a fraction" },
  { label: "calibration density", typed: conditions.calibrationDensity, format: "0.0000", unit: "kg/m³" },
];

const fixed = [
  ["flow basis", "indicated at calibration density"],
  ["pressure sign", "indoors minus outdoors"],
  ["standard", "ISO 9972"],
  ["technique", "ordinary"],
] as const;

/** The settings of the whole test on the first sheet, for settings elsewhere. */
export const testSettingPlaces = [...typed, ...fixed.map(([label]) => ({ label, format: "General" }))].map(
  ({ label, format }, index) => ({ label, format, cell: onSheet(sheets.overview, `C${settingsFirst + index}`) }),
);

/** The cell of a setting that is typed, on the first sheet itself. */
export const testSettingCell = (label: string): string =>
  `C${settingsFirst + typed.findIndex((one) => one.label === label)}`;

/** The whole test of one direction from its stations, every step a row. */
export function directionPage(direction: Direction): Page {
  const name = sheets[direction];
  const sheet = new Sheet(name, [1.5, 42, 12, 30, 10, 10, 13, 38], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:H${tableLast}`],
    pages: 1,
    footer,
  });
  writePageHead(
    sheet,
    letterhead,
    ["B", "H"],
    name,
    "The stations of this direction as readings of a whole test, in one call.",
  );
  sheet.heightOf(13.5, 5, tableLast);
  setWholeTestHeights(sheet, tableFirst);
  writeHeading(sheet, 5, ["B", "H"], "Every step of the test, a row each");
  writeColumnHeads(sheet, 6, "B", tableHeads);
  const { pressures, flows, before, after, include } = argumentsOf(direction);
  const formula = call(
    "TESTRESULT",
    quoted(direction),
    pressures,
    flows,
    before,
    after,
    keepBlanks("TestSettings"),
    include,
  );
  sheet.addIn(`B${tableFirst}:H${tableLast}`, onceLogged(formula), (row, column) =>
    tableLook(column, wholeTestSymbols[row] ?? ""),
  );
  return { sheet, names: {} };
}

/** Label and value as the whole test reads them; what is typed here is checked, the rest describes this template. Gives their range. */
export function writeTestSettings(sheet: Sheet): string {
  writeHeading(sheet, settingsFirst - 1, ["B", "D"], "What the test needs beside the log");
  writeFormLines(sheet, settingsFirst, { label: "B", value: "C", unit: "D" }, typed);
  fixed.forEach(([label, value], index) => {
    const row = settingsFirst + typed.length + index;
    sheet.put(`B${row}`, label, looks.label).put(`C${row}`, value, style({ shrink: true }, native(undefined, "left")));
    sheet.merge(`C${row}:D${row}`);
  });
  validateTemperatures(
    sheet,
    { indoors: `C${settingsFirst + 2}`, outdoors: `C${settingsFirst + 3}` },
    "Mean over the test",
  );
  sheet.validate(
    between(
      `C${settingsFirst}:C${settingsFirst + 1}`,
      1,
      1e6,
      "Size",
      "Internal volume and envelope area by ISO 9972.",
    ),
    between(`C${settingsFirst + 4}`, 50_000, 110_000, "Barometer", "Read at the house, Pa; 1009 hPa is 100 900 Pa."),
    between(`C${settingsFirst + 5}:C${settingsFirst + 6}`, 0, 1, "Relative humidity", "A fraction: 0.5 for 50 %."),
    between(
      `C${settingsFirst + 7}`,
      0.9,
      1.5,
      "Calibration density",
      "Density of air that the fan’s certificate is for.",
    ),
  );
  return `B${settingsFirst}:C${settingsFirst + typed.length + fixed.length - 1}`;
}

const tableFirst = 7;
const tableLast = tableFirst + wholeTestSymbols.length - 1;

const letters = { symbol: "C", value: "D", lower: "E", upper: "F" } as const;

/** The cell of a direction's table in the row of a symbol. */
export function resultCell(direction: Direction, symbol: string, column: keyof typeof letters = "value"): string {
  return onSheet(sheets[direction], `${letters[column]}${tableFirst + placeIn(wholeTestSymbols, symbol)}`);
}

/** A value of a direction's table, by its symbol. */
export function resultOf(direction: Direction, symbol: string, column: "value" | "lower" | "upper" = "value"): string {
  return guardedCell(symbol, resultCell(direction, symbol, "symbol"), resultCell(direction, symbol, column));
}
