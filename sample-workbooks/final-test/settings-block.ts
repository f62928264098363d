import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import { assumptionsIn } from "./assumptions";
import type { Conditions, RunForm } from "./conditions";
import { openingTable, validUntil } from "./instruments";
import { sheetOf } from "./places";
import { readingRows } from "./reading-rows";
import { columns } from "./steps";
import { assumptionAt } from "./uncertainty-places";

interface Setting {
  readonly label: string;
  readonly value: { readonly formula: string; readonly format?: string } | string;
}

/** The settings of one run: for the whole test and the budget, and with the other direction's result for the checks. */
export interface SettingsPlaces {
  readonly test: string;
  readonly checks: string;
  /** The last row. */
  readonly last: number;
}

const first = 7;
const settingsColumns = { label: "W", value: "X" } as const;

const blankAware = (cell: string) => `IF(${cell}="","",${cell})`;
const unlessError = (cell: string) => `IFERROR(${blankAware(cell)},"")`;

/** The result of the test that the criterion limits, as the functions call it; "" without a criterion. */
export const limitedResult = [
  'IFERROR(IF(TargetQuantity="air change rate","n_pr"',
  'IF(TargetQuantity="per envelope area","qE_pr"',
  'IF(TargetQuantity="per floor area","qF_pr"',
  'IF(TargetQuantity="leakage area per envelope area","EqLA10","")))),"")',
].join(",");

/** The opening of each reading as a letter by its place in the table of openings, one after the other. */
function openingLetters(): string {
  const { first, last } = readingRows;
  const letters = Array.from({ length: last - first + 1 }, (_, index) => {
    const row = first + index;
    return `IF(OR(D${row}="",E${row}=""),"",IFERROR(CHAR(64+MATCH(E${row},${openingTable.name},0)),"?"))`;
  });
  return letters.join("&");
}

/** The lowest fan pressure through each opening that the budget has a row for, with ; between them; an opening that is not in use has that of all. */
function lowestFanPressures(fanPressure: string, include: string): string {
  const counted = `${include},"<>no"`;
  const lowest = (more = "") => `_xlfn.MINIFS(${fanPressure},${counted}${more})`;
  const each = [1, 2, 3].map((place) => {
    const through = `${columns.opening},INDEX(${openingTable.name},${place})`;
    return `IF(COUNTIFS(${through},${counted})=0,${lowest()},${lowest(`,${through}`)})`;
  });
  return `IF(COUNT(${fanPressure})=0,"",${each.join('&";"&')})`;
}

function settingsOf({ units }: RunForm, conditions: Conditions): readonly Setting[] {
  const formula = (label: string, text: string, format?: string): Setting => ({
    label,
    value: { formula: text, ...(format && { format }) },
  });
  const { fanPressure, include, exponent } = columns;
  const random = (label: string) => {
    const cell = assumptionAt(units, label);
    return formula(label, `IF(TestTechnique="weighted","",${blankAware(cell)})`, "0.0###");
  };
  const others = assumptionsIn(units).filter(({ label }) => !/^(pressure|flow) uncertainty$/.test(label));
  return [
    formula("volume", unlessError("InternalVolume"), decimals(1)),
    formula("envelope area", unlessError("EnvelopeArea"), decimals(1)),
    formula("floor area", unlessError("FloorArea"), decimals(1)),
    formula("volume convention", "VolumeConvention"),
    formula("indoor temperature", blankAware(conditions.indoorTemperature), decimals(2)),
    formula("outdoor temperature", blankAware(conditions.outdoorTemperature), decimals(2)),
    formula("barometric pressure", blankAware(conditions.barometer), decimals(units.digits.barometer)),
    formula("indoor humidity", blankAware(conditions.indoorHumidity), decimals(2)),
    formula("outdoor humidity", blankAware(conditions.outdoorHumidity), decimals(2)),
    { label: "flow basis", value: "indicated at calibration density" },
    formula("calibration density", conditions.calibrationDensity, decimals(units.digits.density)),
    { label: "pressure sign", value: "indoors minus outdoors" },
    formula("standard", blankAware("TestStandard")),
    formula("technique", blankAware("TestTechnique")),
    formula("confidence", blankAware("ConfidenceLevel"), "0.0##"),
    formula("reference pressure", unlessError("TargetPressure"), decimals(0)),
    { label: "units", value: units.system },
    { label: "headings", value: "no" },
    random("pressure uncertainty"),
    random("flow uncertainty"),
    formula("wind speed", blankAware(conditions.wind), decimals(1)),
    formula("wind place", blankAware("WindPlace")),
    formula("beaufort", blankAware("Beaufort")),
    formula("building height", blankAware("HouseHeight"), decimals(1)),
    formula("test date", 'IF(COUNT(TestDate)=0,"",TestDate)', "d mmm yyyy"),
    formula("gauge certificate valid until", validUntil.gauge, "d mmm yyyy"),
    formula("flow device certificate valid until", validUntil.flowDevice, "d mmm yyyy"),
    formula("low pressure reason", blankAware("LowPressureReason")),
    formula("budget quantity", limitedResult),
    formula("openings", openingLetters()),
    formula("fan pressure at lowest flow", lowestFanPressures(fanPressure, bare(include))),
    formula("fan exponent", `IFERROR(AVERAGE(${exponent}),"")`, decimals(3)),
    ...others.map(({ label, format }) => formula(label, blankAware(assumptionAt(units, label)), format)),
  ];
}

/** The range within IF(range="","",range). */
function bare(kept: string): string {
  return /^IF\(([^=]+)=/.exec(kept)?.[1] ?? kept;
}

/** Label and value of everything that the calls of this run read; each value comes from the sheet where it is typed or chosen. */
export function settingsBlock(sheet: Sheet, form: RunForm, conditions: Conditions, otherFlow: string): SettingsPlaces {
  const { label: labels, value: values } = settingsColumns;
  section(sheet, 5, [labels, values], "Settings");
  columnHeads(sheet, 6, labels, ["<label", "<value"]);
  const settings = settingsOf(form, conditions);
  const all: readonly Setting[] = [
    ...settings,
    { label: "q50 of the other direction", value: { formula: otherFlow, format: decimals(1) } },
  ];
  all.forEach(({ label, value }, index) => {
    const row = first + index;
    sheet.put(`${labels}${row}`, label, looks.label);
    if (typeof value === "object") sheet.formula(`${values}${row}`, value.formula, native(value.format, "left"));
    else sheet.put(`${values}${row}`, value, native(undefined, "left"));
  });
  const upTo = (count: number) =>
    onSheet(sheetOf(form.direction, form.run), `${labels}${first}:${values}${first + count - 1}`);
  return { test: upTo(settings.length), checks: upTo(all.length), last: first + all.length - 1 };
}
