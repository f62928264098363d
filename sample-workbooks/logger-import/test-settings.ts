import { onSheet } from "../blocks/address";
import { formLines } from "../blocks/form";
import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { airTemperatures, between } from "../blocks/validation";
import { sheets } from "./places";
import { conditions } from "./scenario";

const first = 14;

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
  ({ label, format }, index) => ({ label, format, cell: onSheet(sheets.overview, `C${first + index}`) }),
);

/** The cell of a setting that is typed, on the first sheet itself. */
export const testSettingCell = (label: string): string => `C${first + typed.findIndex((one) => one.label === label)}`;

/** Label and value as the whole test reads them; what is typed here is checked, the rest describes this template. Gives their range. */
export function testSettings(sheet: Sheet): string {
  section(sheet, first - 1, ["B", "D"], "What the test needs beside the log");
  formLines(sheet, first, { label: "B", value: "C", unit: "D" }, typed);
  fixed.forEach(([label, value], index) => {
    const row = first + typed.length + index;
    sheet.put(`B${row}`, label, looks.label).put(`C${row}`, value, style({ shrink: true }, native(undefined, "left")));
    sheet.paint(`D${row}`, looks.unit);
  });
  airTemperatures(sheet, { indoors: `C${first + 2}`, outdoors: `C${first + 3}` }, "Mean over the test");
  sheet.validate(
    between(`C${first}:C${first + 1}`, 1, 1e6, "Size", "Internal volume and envelope area by ISO 9972."),
    between(`C${first + 4}`, 50_000, 110_000, "Barometer", "Read at the house, Pa; 1009 hPa is 100 900 Pa."),
    between(`C${first + 5}:C${first + 6}`, 0, 1, "Relative humidity", "A fraction: 0.5 for 50 %."),
    between(`C${first + 7}`, 0.9, 1.5, "Calibration density", "Density of air that the fan’s certificate is for."),
  );
  return `B${first}:C${first + typed.length + fixed.length - 1}`;
}
