import { call, keepBlanks, quoted } from "../blocks/add-in";
import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { wholeMean } from "../blocks/typed-cells";
import type { Units } from "../blocks/units";
import { between, isUnlikelyTemperature } from "../blocks/validation";
import { readingRows, type RunNumber, sheetOf } from "./layout";
import type { Direction, DirectionReadings } from "./scenario";

const rows = {
  indoor: 7,
  outdoor: 8,
  indoorHumidity: 9,
  outdoorHumidity: 10,
  barometer: 11,
  wind: 12,
  caution: 13,
} as const;

/** Cells of one run's sheet that its later steps use. */
export interface Conditions {
  readonly indoorTemperature: string;
  readonly outdoorTemperature: string;
  readonly indoorHumidity: string;
  readonly outdoorHumidity: string;
  readonly barometer: string;
  readonly wind: string;
  readonly calibrationDensity: string;
  readonly baselineBefore: string;
  readonly baselineAfter: string;
  /** Formulas for other sheets. */
  readonly fewestBaselines: string;
  readonly baseline: string;
  readonly pressureRead: string;
  readonly humidityRead: string;
  /** A formula: a temperature was typed that can hardly be in the unit of the form. */
  readonly temperatureDoubtful: string;
}

/** One run of one direction, as the sections of its sheet need it. */
export interface RunForm {
  readonly direction: Direction;
  readonly run: RunNumber;
  readonly units: Units;
  /** Absent where the run was not made. */
  readonly readings: DirectionReadings | undefined;
}

/** Whether a run has readings at all: until then its cells stay blank. */
export const hasReadings = `COUNTA($D$${readingRows.first}:$D$${readingRows.last})>0`;

const sides = [
  { row: rows.indoor, side: "indoors", word: "Indoors" },
  { row: rows.outdoor, side: "outdoors", word: "Outdoors" },
] as const;

const typedAt = (row: number) => `F${row}:G${row}`;

function doubtful(range: string, side: "indoors" | "outdoors", { fromCelsius }: Units): string {
  return isUnlikelyTemperature(range, side, fromCelsius);
}

/** Temperatures, barometer, wind; the baseline readings before and after. */
export function writeConditions(sheet: Sheet, form: RunForm): Conditions {
  const name = sheetOf(form.direction, form.run);
  const { before, after, baseline } = baselinePlaces;
  const [thereBefore, thereAfter] = [onSheet(name, before), onSheet(name, after)];
  const places: Conditions = {
    indoorTemperature: "$H$7",
    outdoorTemperature: "$H$8",
    indoorHumidity: "$H$9",
    outdoorHumidity: "$H$10",
    barometer: "$H$11",
    wind: "$H$12",
    calibrationDensity: "$R$10",
    baselineBefore: before,
    baselineAfter: after,
    fewestBaselines: `IF(COUNTA(${thereBefore},${thereAfter})=0,"",MIN(COUNT(${thereBefore}),COUNT(${thereAfter})))`,
    baseline: onSheet(name, baseline),
    pressureRead: onSheet(name, "H11"),
    humidityRead: onSheet(name, "H9:H10"),
    temperatureDoubtful: `OR(${sides.map(({ row, side }) => doubtful(onSheet(name, typedAt(row)), side, form.units)).join(",")})`,
  };
  writeTypedConditions(sheet, form);
  writeBaseline(sheet, form.readings);
  return places;
}

function writeTypedConditions(sheet: Sheet, { readings, units }: RunForm): void {
  writeHeading(sheet, 5, ["B", "I"], "Conditions");
  writeColumnHeads(sheet, 6, "F", ["before", "after", "used"]);
  sheet.paint("B6:I6", looks.columnHead);
  const lines: readonly (readonly [
    row: number,
    label: string,
    typed: readonly (number | null)[],
    digits: number,
    unit: string,
  ])[] = [
    [rows.indoor, "Temperature indoors", readings?.indoorTemperature ?? [], 1, units.temperature],
    [rows.outdoor, "Temperature outdoors", readings?.outdoorTemperature ?? [], 1, units.temperature],
    [rows.indoorHumidity, "Relative humidity indoors", [readings?.indoorHumidity ?? null], 2, "fraction"],
    [rows.outdoorHumidity, "Relative humidity outdoors", [readings?.outdoorHumidity ?? null], 2, "fraction"],
    [
      rows.barometer,
      "Barometric pressure on site",
      [readings?.barometer ?? null],
      units.digits.barometer,
      units.barometer,
    ],
    [rows.wind, "Wind speed", [readings?.wind ?? null], 1, units.speed],
  ];
  for (const [row, label, [before = null, after = null], digits, unit] of lines) {
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}:E${row}`, looks.label);
    sheet.type(`F${row}`, before, decimals(digits)).type(`G${row}`, after, decimals(digits));
    // AVERAGE leaves text out without a word, and an assumption would take its place.
    const typed = `F${row}:G${row}`;
    sheet.formula(`H${row}`, wholeMean(typed), native(decimals(digits === 1 ? 2 : digits)));
    sheet.put(`I${row}`, unit, looks.unit);
  }
  writeTemperatureCaution(sheet, units);
  const degrees = (celsius: number) => Math.round(units.fromCelsius(celsius));
  const pressure = (pascal: number) => Number((pascal / units.in.barometer).toFixed(units.digits.barometer));
  sheet.validate(
    between(
      `F${rows.indoor}:G${rows.indoor}`,
      degrees(-20),
      degrees(50),
      `Indoors, ${units.temperature}`,
      "Mean air temperature in the house, before and after the readings.",
    ),
    between(
      `F${rows.outdoor}:G${rows.outdoor}`,
      degrees(-45),
      degrees(50),
      `Outdoors, ${units.temperature}`,
      "Air temperature outdoors, before and after the readings.",
    ),
    between(`F${rows.indoorHumidity}:G${rows.outdoorHumidity}`, 0, 1, "Relative humidity", "A fraction: 0.5 for 50 %."),
    between(
      `F${rows.barometer}:G${rows.barometer}`,
      pressure(50000),
      pressure(110000),
      `Barometric pressure, ${units.barometer}`,
      units.system === "SI"
        ? "Read at the house, in Pa: 1013.25 hPa is 101 325 Pa."
        : "Read at the house, not reduced to sea level: 29.92 inHg is a usual value there.",
    ),
    between(
      `F${rows.wind}:G${rows.wind}`,
      0,
      Math.round(30 / units.in.speed),
      `Wind, ${units.speed}`,
      "Wind speed; where it is read is chosen on the sheet Preparation.",
    ),
  );
}

/** Degrees of the other scale pass every other check: 20 in a form for °F is a cold day in place of a warm room. */
function writeTemperatureCaution(sheet: Sheet, units: Units): void {
  const [other, example] = units.system === "SI" ? ["°F", "68 °F is 20 °C"] : ["°C", "20 °C is 68 °F"];
  const words = sides.map(({ row, side, word }) => {
    const caution = `${word} hardly ${units.temperature}: was ${other} typed? ${example}.`;
    return [doubtful(typedAt(row), side, units), caution] as const;
  });
  const formula = words.reduceRight((otherwise, [isSo, caution]) => `IF(${isSo},"${caution}",${otherwise})`, '""');
  const look = style({ size: 8, bold: true, colour: palette.fail, align: "left" });
  sheet.formula(`B${rows.caution}`, formula, look);
}

const baseline = { heads: 15, before: 16, after: 17 } as const;

/** Raw baseline readings of one run's sheet and their means, by address. */
export const baselinePlaces = {
  before: "$D$16:$M$16",
  after: "$D$17:$M$17",
  means: "$N$16:$P$17",
  baseline: "$S$16",
} as const;

/** Baseline readings before and after with their means, and the baseline of the test. */
function writeBaseline(sheet: Sheet, readings: DirectionReadings | undefined): void {
  writeHeading(
    sheet,
    14,
    ["B", "T"],
    "Baseline pressure, flow device covered, in Pa; ten readings or more before and after",
  );
  const numbers = Array.from({ length: 10 }, (_, index) => String(index + 1));
  writeColumnHeads(sheet, baseline.heads, "D", [...numbers, "mean", "mean of +", "mean of −"]);
  sheet.paint(`B${baseline.heads}:T${baseline.heads}`, looks.columnHead);
  for (const [row, label, values] of [
    [baseline.before, "before", readings?.baselineBefore ?? []],
    [baseline.after, "after", readings?.baselineAfter ?? []],
  ] as const) {
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}`, looks.label);
    for (let index = 0; index < 10; index++) {
      sheet.type(`${lettersOf(columnOf("D") + index)}${row}`, values[index] ?? null, decimals(1));
    }
    const set = `D${row}:M${row}`;
    const meanOf = (sign: string) =>
      `IF(ISERROR($N${row}),NA(),IF(COUNTIF(${set},"${sign}0")=0,"",SUMIF(${set},"${sign}0")/COUNTIF(${set},"${sign}0")))`;
    sheet.formula(`N${row}`, wholeMean(set), native(decimals(2)));
    sheet.formula(`O${row}`, meanOf(">"), native(decimals(2))).formula(`P${row}`, meanOf("<"), native(decimals(2)));
  }
  sheet.rich("Q16", "Baseline Δp_{0}", style({ indent: 1, align: "left" }, looks.strong)).paint("R16", looks.label);
  const both = [baselinePlaces.before, baselinePlaces.after].map(keepBlanks);
  const anyRead = `COUNTA(${baselinePlaces.before},${baselinePlaces.after})=0`;
  sheet.addIn(
    "S16",
    `IF(${anyRead},"",${call("BASELINEPRESSURE", ...both)})`,
    style({ bold: true }, fromAddIn(decimals(2))),
  );
  sheet.put("T16", "Pa", looks.unit).put("Q17", "mean of the two means", looks.unit).paint("R17:T17", looks.unit);
  sheet.validate(
    between(
      `D${baseline.before}:M${baseline.after}`,
      -50,
      50,
      "Baseline reading, Pa",
      "Indoors minus outdoors with its own sign, flow device covered and off. 0 is a reading; spare cells stay blank.",
    ),
  );
}

/** Densities of both sides, and the factors that turn the indicated flow into that through the envelope. */
export function writeAir(sheet: Sheet, { direction, units }: RunForm, places: Conditions): void {
  writeHeading(sheet, 5, ["K", "T"], "Air and density factors");
  writeColumnHeads(sheet, 6, "R", ["value", "<<unit"]);
  sheet.paint("K6:T6", looks.columnHead);
  const leaving = direction === "depressurization";
  const density = (temperature: string, humidity: string) =>
    call(
      "AIRDENSITY",
      keepBlanks(temperature),
      keepBlanks(places.barometer),
      keepBlanks(humidity),
      quoted(units.system),
    );
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
    quoted(units.system),
  );
  const device = leaving ? 'IF(R7="","",R7)' : 'IF(R8="","",R8)';
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
      units.density,
    ],
    [
      8,
      "Density of the air outdoors, ρ_{e}",
      "add-in",
      density(places.outdoorTemperature, places.outdoorHumidity),
      units.density,
    ],
    [9, `Density at the flow device: air from ${leaving ? "indoors" : "outdoors"}`, "native", device, units.density],
    [
      10,
      "Density that the certificate is for, ρ_{cal}",
      "native",
      `IF(COUNT(CalibrationDensity)=0,IF(${hasReadings},NA(),""),CalibrationDensity)`,
      units.density,
    ],
    [11, "Factor √(ρ_{cal} / ρ at the device)", "native", 'IF(OR(R9="",R10=""),"",SQRT(R10/R9))', ""],
    [12, `Factor to the envelope, ${leaving ? "ρ_{i} / ρ_{e}" : "ρ_{e} / ρ_{i}"}`, "add-in", factor, ""],
  ];
  for (const [row, label, how, formula, unit] of lines) {
    sheet.rich(`K${row}`, label, looks.label).paint(`L${row}:Q${row}`, looks.label);
    if (how === "add-in") sheet.addIn(`R${row}`, formula, fromAddIn(decimals(units.digits.density)));
    else sheet.formula(`R${row}`, formula, native(decimals(units.digits.density)));
    sheet.put(`S${row}`, unit, looks.unit).paint(`T${row}`, looks.label);
  }
}
