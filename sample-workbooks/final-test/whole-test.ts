import { call, keepBlanks, quoted, writeSpillingCall } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import { guardedCell, placeIn, tableHeads, tableLook, wholeTestSymbols } from "../blocks/result-tables";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { assumptionAt, assumptionsIn } from "./assumptions";
import { type Conditions, hasReadings, type RunForm } from "./conditions";
import { takesUncertainties } from "./criteria";
import { openingTable, validUntil } from "./firm";
import { readingRows, sheetOf } from "./layout";
import { columns } from "./readings";

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

const settingsFirst = 7;
const settingsColumns = { label: "W", value: "X" } as const;

const unlessError = (cell: string) => `IFERROR(${keepBlanks(cell)},"")`;

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

/** One figure for each opening of the certificate, with ; between them, once there is a fan pressure. */
function ofEachOpening(fanPressure: string, figure: (place: number) => string): string {
  const each = Array.from({ length: openingTable.rows }, (_, index) => figure(index + 1));
  return `IF(COUNT(${fanPressure})=0,"",${each.join('&";"&')})`;
}

/** The lowest fan pressure through each opening; one that is not in use has that of all. */
function lowestFanPressures(fanPressure: string, include: string): string {
  const counted = `${include},"<>no"`;
  const lowest = (more = "") => `_xlfn.MINIFS(${fanPressure},${counted}${more})`;
  return ofEachOpening(fanPressure, (place) => {
    const through = `${columns.opening},INDEX(${openingTable.name},${place})`;
    return `IF(COUNTIFS(${through},${counted})=0,${lowest()},${lowest(`,${through}`)})`;
  });
}

/** The middle of each opening's certified range, about which an error of its exponent turns; of one without a range 1 Pa, which no reading through it can use. */
function pivots(fanPressure: string): string {
  const [from, to] = [openingTable.column("F"), openingTable.column("G")];
  return ofEachOpening(fanPressure, (place) => {
    const product = `N(INDEX(${from},${place}))*N(INDEX(${to},${place}))`;
    return `IF(${product}>0,SQRT(${product}),1)`;
  });
}

/** The uncertainty of each opening's calibration: its own, else that of all, else the largest that is stated. */
function openingUncertainties(ofAll: string): string {
  const own = openingTable.uncertainty;
  const orElse = `IF(COUNT(${ofAll})=0,MAX(${own}),${ofAll})`;
  const each = Array.from({ length: openingTable.rows }, (_, index) => {
    const one = openingTable.uncertaintyAt(index + 1);
    return `IF(COUNT(${one})=0,${orElse},${one})`;
  });
  return `IF(COUNT(${own})=0,${keepBlanks(ofAll)},${each.join('&";"&')})`;
}

function settingsOf({ units }: RunForm, conditions: Conditions): readonly Setting[] {
  const formula = (label: string, text: string, format?: string): Setting => ({
    label,
    value: { formula: text, ...(format && { format }) },
  });
  const { fanPressure, include, exponent } = columns;
  const random = (label: string) => {
    const cell = assumptionAt(units, label);
    return formula(label, `IF(TestTechnique="weighted","",${keepBlanks(cell)})`, "0.0###");
  };
  const others = assumptionsIn(units).filter(({ label }) => !/^(pressure|flow) uncertainty$/.test(label));
  return [
    formula("volume", unlessError("InternalVolume"), decimals(1)),
    formula("envelope area", unlessError("EnvelopeArea"), decimals(1)),
    formula("floor area", unlessError("FloorArea"), decimals(1)),
    formula("volume convention", "VolumeConvention"),
    formula("indoor temperature", keepBlanks(conditions.indoorTemperature), decimals(2)),
    formula("outdoor temperature", keepBlanks(conditions.outdoorTemperature), decimals(2)),
    formula("barometric pressure", keepBlanks(conditions.barometer), decimals(units.digits.barometer)),
    formula("indoor humidity", keepBlanks(conditions.indoorHumidity), decimals(2)),
    formula("outdoor humidity", keepBlanks(conditions.outdoorHumidity), decimals(2)),
    { label: "flow basis", value: "indicated at calibration density" },
    formula("calibration density", conditions.calibrationDensity, decimals(units.digits.density)),
    { label: "pressure sign", value: "indoors minus outdoors" },
    formula("standard", keepBlanks("TestStandard")),
    formula("technique", keepBlanks("TestTechnique")),
    formula("confidence", keepBlanks("ConfidenceLevel"), "0.0##"),
    formula("reference pressure", unlessError("TargetPressure"), decimals(0)),
    { label: "units", value: units.system },
    { label: "headings", value: "no" },
    random("pressure uncertainty"),
    random("flow uncertainty"),
    formula("wind speed", keepBlanks(conditions.wind), decimals(1)),
    formula("wind place", keepBlanks("WindPlace")),
    formula("beaufort", keepBlanks("Beaufort")),
    formula("building height", keepBlanks("HouseHeight"), decimals(1)),
    formula("test date", 'IF(COUNT(TestDate)=0,"",TestDate)', "d mmm yyyy"),
    formula("gauge certificate valid until", validUntil.gauge, "d mmm yyyy"),
    formula("flow device certificate valid until", validUntil.flowDevice, "d mmm yyyy"),
    formula("low pressure reason", keepBlanks("LowPressureReason")),
    formula("budget quantity", limitedResult),
    formula("openings", openingLetters()),
    formula("opening names", `IF(COUNTA(${openingTable.name})=0,"",_xlfn.TEXTJOIN(";",FALSE,${openingTable.name}))`),
    formula("fan pressure at lowest flow", lowestFanPressures(fanPressure, bare(include))),
    formula("pivot fan pressure", pivots(fanPressure)),
    formula("fan exponent", `IFERROR(AVERAGE(${exponent}),"")`, decimals(3)),
    ...others.map(({ label, format }) => {
      const cell = assumptionAt(units, label);
      const isOfOpenings = label === "opening calibration uncertainty";
      return formula(label, isOfOpenings ? openingUncertainties(cell) : keepBlanks(cell), format);
    }),
  ];
}

/** The range within IF(range="","",range). */
function bare(kept: string): string {
  return /^IF\(([^=]+)=/.exec(kept)?.[1] ?? kept;
}

/** Label and value of everything that the calls of this run read; each value comes from the sheet where it is typed or chosen. */
export function writeRunSettings(
  sheet: Sheet,
  form: RunForm,
  conditions: Conditions,
  otherFlow: string,
): SettingsPlaces {
  const { label: labels, value: values } = settingsColumns;
  writeHeading(sheet, 5, [labels, values], "Settings");
  writeColumnHeads(sheet, 6, labels, ["<label", "<value"]);
  const settings = settingsOf(form, conditions);
  const all: readonly Setting[] = [
    ...settings,
    { label: "q50 of the other direction", value: { formula: otherFlow, format: decimals(1) } },
  ];
  all.forEach(({ label, value }, index) => {
    const row = settingsFirst + index;
    sheet.put(`${labels}${row}`, label, looks.label);
    if (typeof value === "object")
      sheet.formula(`${values}${row}`, value.formula, style({ shrink: true }, native(value.format, "left")));
    else sheet.put(`${values}${row}`, value, native(undefined, "left"));
  });
  const upTo = (count: number) =>
    onSheet(sheetOf(form.direction, form.run), `${labels}${settingsFirst}:${values}${settingsFirst + count - 1}`);
  return { test: upTo(settings.length), checks: upTo(all.length), last: settingsFirst + all.length - 1 };
}

const testFirst = 7;

const testLast = testFirst + wholeTestSymbols.length - 1;

/** A later version of the method may add rows at the end of the table; where a cell is in their way, Excel shows #SPILL! and no result. */
const spareRows = 4;

/** The first row below the table. */
const belowWholeTest = testLast + spareRows + 2;

/** Where other sheets find the whole test's rows, each by the row's symbol. */
export interface WholeTestPlaces {
  readonly value: (symbol: string) => string;
  readonly lower: (symbol: string) => string;
  readonly upper: (symbol: string) => string;
}

/** The arguments of the functions that take a whole run, up to the settings, for calls on any sheet. */
export function runArguments({ direction, run }: RunForm, conditions: Conditions): readonly string[] {
  const there = (text: string) =>
    text.replace(/\$[A-Z]+\$\d+:\$[A-Z]+\$\d+/g, (range) => onSheet(sheetOf(direction, run), range));
  const { reading, indicated } = columns;
  const baselines = [conditions.baselineBefore, conditions.baselineAfter].map(keepBlanks);
  return [quoted(direction), ...[reading, indicated, ...baselines].map(there)];
}

/** Which readings take part, for calls on any sheet. */
export function includedRows({ direction, run }: RunForm): string {
  return columns.include.replace(/\$[A-Z]+\$\d+:\$[A-Z]+\$\d+/g, (range) => onSheet(sheetOf(direction, run), range));
}

/** Where the table stands, whichever sheet asks. */
export function wholeTestPlaces({ direction, run }: Pick<RunForm, "direction" | "run">): WholeTestPlaces {
  const sheet = sheetOf(direction, run);
  const pick = (letters: string) => (symbol: string) => {
    const row = testFirst + placeIn(wholeTestSymbols, symbol);
    return guardedCell(symbol, onSheet(sheet, `AA${row}`), onSheet(sheet, `${letters}${row}`));
  };
  return { value: pick("AB"), lower: pick("AC"), upper: pick("AD") };
}

/** The whole test in one call, from the raw readings and the settings. */
export function writeWholeTest(sheet: Sheet, form: RunForm, conditions: Conditions, settings: SettingsPlaces): void {
  writeHeading(sheet, 5, ["Z", "AF"], "The whole test in one call, every step a row");
  writeColumnHeads(sheet, 6, "Z", tableHeads);
  const test = call("TESTRESULT", ...runArguments(form, conditions), settings.test, includedRows(form));
  writeSpillingCall(
    sheet,
    `Z${testFirst}:AF${testLast}`,
    `IF(${hasReadings},${test},"")`,
    // A taller row would tear the readings beside it apart.
    (row, column) => style({ wrap: false, shrink: true }, tableLook(column, wholeTestSymbols[row] ?? "")),
    form.readings !== undefined,
  );
}

const heads = belowWholeTest + 1;
const lineFirst = heads + 1;
const symbols = ["C", "n", "r2", "count", "dof", "t", "s_n", "s_lnC", "q50", "n_data", "prior_share"];
const lineLast = lineFirst + symbols.length - 1;

/** The row that says whether the line and the whole test agree. */
const agreementRow = lineLast + 1;

/** Where other sheets find the fitted line. */
export interface LinePlaces {
  /** Whether the line of the steps and the whole test agree, in a word. */
  readonly agreement: string;
}

/** The line through the steps of the readings (columns K and N), which the whole test must find again from the raw readings. */
export function writeLine(sheet: Sheet, form: RunForm): LinePlaces {
  writeHeading(
    sheet,
    belowWholeTest,
    ["Z", "AF"],
    "The line once more, through the steps of the readings (columns K and N)",
  );
  writeColumnHeads(sheet, heads, "Z", tableHeads);
  const { units } = form;
  const fit = (...uncertainties: readonly string[]) =>
    call(
      "LEAKAGEFIT",
      columns.induced,
      columns.flow,
      "TestTechnique",
      "ConfidenceLevel",
      columns.include,
      ...uncertainties,
    );
  const relative = assumptionAt(units, "flow uncertainty");
  const ofFlow = `IF((${columns.flow}="")+(${relative}=""),"",${columns.flow}*${relative})`;
  const weighted = fit(assumptionAt(units, "pressure uncertainty"), ofFlow);
  writeSpillingCall(
    sheet,
    `Z${lineFirst}:AF${lineLast}`,
    `IF(${hasReadings},IF(${takesUncertainties},${weighted},${fit()}),"")`,
    (row, column) => tableLook(column, symbols[row] ?? ""),
    form.readings !== undefined,
  );
  const there = wholeTestPlaces(form);
  const same = ["C", "n", "r2", "count"].map((symbol) => {
    const row = lineFirst + placeIn(symbols, symbol);
    const [here, whole] = [guardedCell(symbol, `AA${row}`, `AB${row}`), there.value(symbol)];
    return `ABS(${here}-${whole})<=0.000000001*ABS(${whole})`;
  });
  sheet.put(`Z${agreementRow}`, "Steps and whole test: C, n, r² and count", looks.strong);
  sheet.formula(
    `AB${agreementRow}`,
    `IF(${hasReadings},IFERROR(IF(AND(${same.join(",")}),"agree","differ"),"incomplete"),"")`,
    style({ bold: true }, native()),
  );
  sheet.paint(`Z${agreementRow}:AF${agreementRow}`, looks.label);
  return { agreement: onSheet(sheetOf(form.direction, form.run), `AB${agreementRow}`) };
}
