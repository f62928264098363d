import { call, keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native } from "../blocks/style";
import { between } from "../blocks/validation";
import { baselinePlaces, baselineSection } from "./baseline";
import { sheets } from "./places";
import type { Direction, DirectionReadings } from "./readings";

const rows = { indoor: 7, outdoor: 8, indoorHumidity: 9, outdoorHumidity: 10, barometer: 11, wind: 12 } as const;

/** Cells of one direction's sheet that its later steps use. */
export interface Conditions {
  readonly indoorTemperature: string;
  readonly outdoorTemperature: string;
  readonly indoorHumidity: string;
  readonly outdoorHumidity: string;
  readonly barometer: string;
  readonly calibrationDensity: string;
  readonly indoorDensity: string;
  readonly outdoorDensity: string;
  readonly baselineBefore: string;
  readonly baselineAfter: string;
  /** Formulas for other sheets. */
  readonly largestBaseline: string;
  readonly fewestBaselines: string;
  readonly baseline: string;
  readonly wind: string;
  readonly pressureRead: string;
  readonly humidityRead: string;
  readonly temperatureDifference: string;
}

/** Temperatures, barometer, wind; the densities and factors that follow; the baseline readings before and after. */
export function conditionsSection(sheet: Sheet, direction: Direction, readings: DirectionReadings): Conditions {
  const [means, before, after] = [baselinePlaces.means, baselinePlaces.before, baselinePlaces.after].map((range) =>
    onSheet(sheets[direction], range),
  ) as [string, string, string];
  const places: Conditions = {
    indoorTemperature: "$H$7",
    outdoorTemperature: "$H$8",
    indoorHumidity: "$H$9",
    outdoorHumidity: "$H$10",
    barometer: "$H$11",
    calibrationDensity: "$R$10",
    indoorDensity: "$R$7",
    outdoorDensity: "$R$8",
    baselineBefore: baselinePlaces.before,
    baselineAfter: baselinePlaces.after,
    largestBaseline: `IF(COUNT(${means})=0,"",MAX(MAX(${means}),-MIN(${means})))`,
    fewestBaselines: `IF(COUNTA(${before},${after})=0,"",MIN(COUNT(${before}),COUNT(${after})))`,
    baseline: onSheet(sheets[direction], baselinePlaces.baseline),
    wind: onSheet(sheets[direction], "H12"),
    pressureRead: onSheet(sheets[direction], "H11"),
    humidityRead: onSheet(sheets[direction], "H9:H10"),
    temperatureDifference: `(${onSheet(sheets[direction], "H7")}-${onSheet(sheets[direction], "H8")})`,
  };
  typedConditions(sheet, readings);
  air(sheet, direction, places);
  baselineSection(sheet, readings);
  return places;
}

function typedConditions(sheet: Sheet, readings: DirectionReadings): void {
  section(sheet, 5, ["B", "I"], "Conditions");
  columnHeads(sheet, 6, "F", ["before", "after", "used"]);
  sheet.paint("B6:I6", looks.columnHead);
  const lines: readonly (readonly [
    row: number,
    label: string,
    typed: readonly (number | null)[],
    digits: number,
    unit: string,
  ])[] = [
    [rows.indoor, "Temperature indoors", readings.indoorTemperature, 1, "°C"],
    [rows.outdoor, "Temperature outdoors", readings.outdoorTemperature, 1, "°C"],
    [rows.indoorHumidity, "Relative humidity indoors", [readings.indoorHumidity, null], 2, "fraction"],
    [rows.outdoorHumidity, "Relative humidity outdoors", [readings.outdoorHumidity, null], 2, "fraction"],
    [rows.barometer, "Barometric pressure at the house", [readings.barometer, null], 0, "Pa"],
    [rows.wind, "Wind near the ground", [readings.wind, null], 1, "m/s"],
  ];
  for (const [row, label, [before = null, after = null], digits, unit] of lines) {
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}:E${row}`, looks.label);
    sheet.type(`F${row}`, before, decimals(digits)).type(`G${row}`, after, decimals(digits));
    // AVERAGE leaves text out without a word, and an assumption would take its place.
    const typed = `F${row}:G${row}`;
    sheet.formula(
      `H${row}`,
      `IF(COUNTA(${typed})<>COUNT(${typed}),NA(),IF(COUNT(${typed})=0,"",AVERAGE(${typed})))`,
      native(decimals(digits === 1 ? 2 : digits)),
    );
    sheet.put(`I${row}`, unit, looks.unit);
  }
  sheet.validate(
    between(
      `F${rows.indoor}:G${rows.indoor}`,
      -20,
      50,
      "Indoors, °C",
      "Mean air temperature in the house, before and after the readings.",
    ),
    between(
      `F${rows.outdoor}:G${rows.outdoor}`,
      -45,
      50,
      "Outdoors, °C",
      "Air temperature outdoors, before and after the readings.",
    ),
    between(`F${rows.indoorHumidity}:G${rows.outdoorHumidity}`, 0, 1, "Relative humidity", "A fraction: 0.5 for 50 %."),
    between(
      `F${rows.barometer}:G${rows.barometer}`,
      50000,
      110000,
      "Barometric pressure, Pa",
      "Read at the house, in Pa: 1013.25 hPa is 101 325 Pa.",
    ),
    between(`F${rows.wind}:G${rows.wind}`, 0, 30, "Wind, m/s", "Wind speed near the ground."),
  );
}

function air(sheet: Sheet, direction: Direction, places: Conditions): void {
  section(sheet, 5, ["K", "T"], "Air and density factors");
  columnHeads(sheet, 6, "R", ["value", "<<unit"]);
  sheet.paint("K6:T6", looks.columnHead);
  const leaving = direction === "depressurization";
  const density = (temperature: string, humidity: string) =>
    call("AIRDENSITY", keepBlanks(temperature), keepBlanks(places.barometer), keepBlanks(humidity));
  const factor = call(
    "DENSITYCORRECTION",
    quoted(direction),
    ...[
      places.indoorTemperature,
      places.outdoorTemperature,
      places.barometer,
      places.indoorHumidity,
      places.outdoorHumidity,
    ].map(keepBlanks),
  );
  const device = leaving ? "R7" : "R8";
  const lines: readonly (readonly [
    row: number,
    label: string,
    how: "add-in" | "native",
    formula: string,
    unit: string,
  ])[] = [
    [
      7,
      "Density of the air indoors, ρ_{i}",
      "add-in",
      density(places.indoorTemperature, places.indoorHumidity),
      "kg/m³",
    ],
    [
      8,
      "Density of the air outdoors, ρ_{e}",
      "add-in",
      density(places.outdoorTemperature, places.outdoorHumidity),
      "kg/m³",
    ],
    [9, `Density at the flow device: air from ${leaving ? "indoors" : "outdoors"}`, "native", device, "kg/m³"],
    [
      10,
      "Density that the certificate is for, ρ_{cal}",
      "native",
      "IF(COUNT(CalibrationDensity)=0,NA(),CalibrationDensity)",
      "kg/m³",
    ],
    [11, "Factor √(ρ_{cal} / ρ at the device)", "native", "SQRT(R10/R9)", ""],
    [12, `Factor to the envelope, ${leaving ? "ρ_{i} / ρ_{e}" : "ρ_{e} / ρ_{i}"}`, "add-in", factor, ""],
  ];
  for (const [row, label, how, formula, unit] of lines) {
    sheet.rich(`K${row}`, label, looks.label).paint(`L${row}:Q${row}`, looks.label);
    if (how === "add-in") sheet.addIn(`R${row}`, formula, fromAddIn(decimals(4)));
    else sheet.formula(`R${row}`, formula, native(decimals(4)));
    sheet.put(`S${row}`, unit, looks.unit).paint(`T${row}`, looks.label);
  }
}
