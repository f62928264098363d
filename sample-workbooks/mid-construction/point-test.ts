import { call, keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { tableHeads, tableLook, wholeTestSymbols } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, shortDay, style } from "../blocks/style";
import { wholeMean } from "../blocks/typed-cells";
import { between, day, oneOf, text, validateTemperatures } from "../blocks/validation";
import { bySymbol, footer } from "./layout";
import type { PointTest } from "./scenario";

/** Rows of a sheet that holds one multi-point test. */
const pointRows = { conditions: 6, baseline: 14, readings: 19, results: 33 } as const;
const readingRows = { first: pointRows.readings + 2, last: pointRows.readings + 11 } as const;

/** What is typed of the readings. */
export const pointCells = {
  readings: `D${readingRows.first}:E${readingRows.last}`,
  baselines: `C${pointRows.baseline}:G${pointRows.baseline + 1}`,
} as const;

/** Rows of the whole-test table. */
const wholeTestRows = { first: 7, last: 6 + wholeTestSymbols.length } as const;

/** Columns of label, value and unit. */
const pointForm = { label: "B", value: "F", unit: "G" } as const;

/** One multi-point test: readings and results on one page, and for the screen only the whole test in one call. */
export function pointTestPage(test: PointTest): Page & { readonly places: PointTestPlaces } {
  const widths = [1.5, 9, 9, 13, 13, 17, 13, 24, 3, 19, 26, 2, 36, 10, 25, 7.5, 7.5, 13, 29];
  const sheet = new Sheet(test.title, widths, palette.petrol, {
    orientation: "portrait",
    areas: [`B1:H${pointRows.results + 14}`],
    pages: 1,
    footer,
    workingPaper: true,
  });
  const lead =
    "Depressurization while the barrier is open, so that every leak can still be reached. Pressures below zero.";
  writePageHead(sheet, letterhead, ["B", "H"], test.title, lead);
  writePageHead(
    sheet,
    letterhead,
    ["J", "S"],
    `${test.title}: the whole test in one call`,
    "From the pressures, the flows as shown and these settings. Uncertainties here hold the scatter of the readings. Not printed.",
  );
  sheet.heightOf(14, 5, pointRows.results + 14);
  writeConditions(sheet, test);
  writeBaselines(sheet, test);
  writeReadingTable(sheet, test);
  writeWholeTest(sheet);
  const place = (row: number) => onSheet(test.title, `F${pointRows.results + row}`);
  writePointTestResults(sheet);
  return {
    sheet,
    names: {},
    places: {
      title: test.title,
      day: onSheet(test.title, `F${pointRows.conditions}`),
      q50: place(0),
      n50: place(1),
      n: place(2),
      nUncertainty: place(3),
      uncertainty: place(8),
      freedom: place(10),
      state: place(9),
    },
  };
}

/** The settings as label and value, and the whole test that reads them together with the raw readings. */
function writeWholeTest(sheet: Sheet): void {
  writeHeading(sheet, 5, ["J", "K"], "Settings");
  writeColumnHeads(sheet, 6, "J", ["<label", "<value"]);
  const at = pointRows.conditions;
  const settings: readonly (readonly [label: string, value: string, format?: string])[] = [
    ["volume", keepBlanks("InternalVolume"), decimals(1)],
    ["envelope area", keepBlanks("EnvelopeArea"), decimals(1)],
    ["floor area", keepBlanks("FloorArea"), decimals(1)],
    ["volume convention", keepBlanks("VolumeConvention")],
    ["indoor temperature", keepBlanks(`F${at + 1}`), decimals(1)],
    ["outdoor temperature", keepBlanks(`F${at + 2}`), decimals(1)],
    ["barometric pressure", keepBlanks(`F${at + 3}`), decimals(0)],
    ["flow basis", quoted("indicated at calibration density")],
    ["calibration density", keepBlanks("CalibrationDensity"), decimals(4)],
    ["standard", quoted("ISO 9972")],
    ["reference pressure", keepBlanks("TargetPressure"), decimals(0)],
  ];
  settings.forEach(([label, value, format], index) => {
    const row = wholeTestRows.first + index;
    sheet.put(`J${row}`, label, looks.label);
    sheet.formula(`K${row}`, value, style({ shrink: true }, native(format, "left")));
  });
  writeHeading(sheet, 5, ["M", "S"], "Every step of the test, a row each");
  writeColumnHeads(sheet, 6, "M", tableHeads);
  const { first, last } = readingRows;
  const whole = call(
    "TESTRESULT",
    quoted("depressurization"),
    `D${first}:D${last}`,
    `E${first}:E${last}`,
    keepBlanks(`C${pointRows.baseline}:G${pointRows.baseline}`),
    keepBlanks(`C${pointRows.baseline + 1}:G${pointRows.baseline + 1}`),
    `$J$${wholeTestRows.first}:$K$${wholeTestRows.first + settings.length - 1}`,
    `C${first}:C${last}`,
  );
  sheet.addIn(
    `M${wholeTestRows.first}:S${wholeTestRows.last}`,
    `IF(COUNTA(D${first}:E${last})=0,"",${whole})`,
    // A taller row would tear the page beside it apart.
    (row, column) => style({ wrap: false, shrink: true }, tableLook(column, wholeTestSymbols[row] ?? "")),
  );
}

/** Results with a short budget of uncertainty. */
function writePointTestResults(sheet: Sheet): void {
  const at = pointRows.results;
  const range = (letter: string) => `$${letter}$${wholeTestRows.first}:$${letter}$${wholeTestRows.last}`;
  const value = bySymbol(range("N"), range("O"));
  const lower = bySymbol(range("N"), range("P"));
  const upper = bySymbol(range("N"), range("Q"));
  writeHeading(sheet, at - 1, ["B", "H"], "Results");
  const bold = (format: string) => style({ bold: true }, native(format));
  const fit = `IF(COUNT(${lower("q50")},${upper("q50")},${value("t")})<3,"",LN(${upper("q50")}/${lower("q50")})/2/${value("t")})`;
  const own = `F${at + 5}:F${at + 7}`;
  writeFormLines(sheet, at, pointForm, [
    {
      label: "Flow through the envelope at 50 Pa, q_{50}",
      formula: value("q50"),
      look: bold(decimals(1)),
      unit: "m³/h",
    },
    {
      label: "Air change rate of the finished house, n_{50}",
      formula: value("n50"),
      look: bold(decimals(3)),
      unit: "1/h",
    },
    { label: "Flow exponent n", formula: value("n"), format: decimals(3) },
    { label: "Standard uncertainty of n", formula: value("s_n"), format: decimals(3) },
    { label: "Fit of the line, r²", formula: value("r2"), format: decimals(4), unit: "≥ 0.98" },
    { label: "Standard uncertainty of q_{50}: scatter of the readings", formula: fit, format: "0.0 %" },
    {
      label: "Calibration of the flow device",
      formula: 'IF(DeviceUncertainty="","",DeviceUncertainty)',
      format: "0.0 %",
    },
    {
      label: "Gain of the pressure gauge, n times",
      formula: `IF(COUNT(GaugeUncertainty,${value("n")})<2,"",GaugeUncertainty*${value("n")})`,
      format: "0.0 %",
    },
    {
      label: "Standard uncertainty of q_{50}, the three together",
      formula: `IF(COUNT(F${at},${own})<4,"",F${at}*SQRT(SUMSQ(${own})))`,
      look: bold(decimals(1)),
      unit: "m³/h",
    },
    {
      label: "State",
      formula: `IF(COUNTA(D${readingRows.first}:E${readingRows.last})=0,"no readings yet",IF(COUNT(F${at})=0,"something is missing",IF(COUNT(F${pointRows.conditions + 3})=0,"computed; 101 325 Pa assumed","computed")))`,
    },
    {
      label: "Degrees of freedom of that uncertainty",
      formula: `IF(COUNT(F${at + 5},F${at + 8},${value("dof")})<3,"",IF(F${at + 5}=0,"",${value("dof")}*(F${at + 8}/F${at}/F${at + 5})^4))`,
      format: decimals(1),
    },
  ]);
  sheet.put(
    `B${at + 11}`,
    "A short budget: scatter, device and gauge. Baseline drift, temperatures and wind are left to the final test, whose budget holds them. Why a result is missing is said beside it, in the first cell of the whole test.",
    looks.note,
  );
  sheet.merge(`B${at + 11}:H${at + 13}`);
}

/** Where other sheets find what one multi-point test gives. */
export interface PointTestPlaces {
  readonly title: string;
  readonly day: string;
  readonly q50: string;
  /** Standard uncertainty of q50, calibration included. */
  readonly uncertainty: string;
  /** Its effective degrees of freedom; blank where the readings do not scatter. */
  readonly freedom: string;
  readonly n: string;
  readonly nUncertainty: string;
  readonly n50: string;
  /** "no readings yet", "something is missing" or "computed". */
  readonly state: string;
}

function writeConditions(sheet: Sheet, test: PointTest): void {
  writeHeading(sheet, pointRows.conditions - 1, ["B", "H"], "Day, house and air");
  writeFormLines(sheet, pointRows.conditions, pointForm, [
    { label: "Day", typed: test.day, format: shortDay, align: "left" },
    { label: "Temperature indoors", typed: test.indoors, format: decimals(1), unit: "°C" },
    { label: "Temperature outdoors", typed: test.outdoors, format: decimals(1), unit: "°C" },
    { label: "Barometric pressure on site", typed: test.barometer, format: decimals(0), unit: "Pa" },
    { label: "Wind near the ground", typed: test.wind, format: decimals(1), unit: "m/s" },
  ]);
  const state = pointRows.conditions + 5;
  sheet.put(`B${state}`, "State of the barrier", looks.label).paint(`C${state}:C${state}`, looks.label);
  sheet.type(`D${state}`, test.state, undefined, "left").merge(`D${state}:H${state}`);
  const at = pointRows.conditions;
  validateTemperatures(sheet, { indoors: `F${at + 1}`, outdoors: `F${at + 2}` });
  sheet.validate(
    day(`F${at}`, "Day", "The day of the test."),
    between(`F${at + 3}`, 50000, 110000, "Barometric pressure, Pa", "At the house, in Pa: 1013.25 hPa is 101 325 Pa."),
    between(`F${at + 4}`, 0, 30, "Wind, m/s", "Wind speed near the ground; 0 is a value."),
    text(`D${state}:H${state}`, "State of the barrier", "What is closed, what is still open, what was repaired.", 90),
  );
}

function writeBaselines(sheet: Sheet, test: PointTest): void {
  const at = pointRows.baseline;
  writeHeading(sheet, at - 1, ["B", "H"], "Baseline, fan off and covered, Pa");
  for (const [row, label, values] of [
    [at, "before", test.before],
    [at + 1, "after", test.after],
  ] as const) {
    sheet.put(`B${row}`, label, looks.label);
    [..."CDEFG"].forEach((letter, index) => {
      sheet.type(`${letter}${row}`, values[index] ?? null, decimals(1));
    });
    const used = `C${row}:G${row}`;
    sheet.formula(`H${row}`, wholeMean(used), native('"mean "0.00;"mean −"0.00'));
  }
  sheet.validate(
    between(`C${at}:G${at + 1}`, -30, 30, "Baseline, Pa", "Signed, indoors minus outdoors; 0 is a value."),
  );
}

/** Mean of the baselines before and after, each the mean of its readings; "" while there is none. */
const baseline = `IF(COUNT($H$${pointRows.baseline}:$H$${pointRows.baseline + 1})=0,"",AVERAGE($H$${pointRows.baseline}:$H$${pointRows.baseline + 1}))`;

function writeReadingTable(sheet: Sheet, test: PointTest): void {
  const { first, last } = readingRows;
  writeHeading(sheet, pointRows.readings, ["B", "H"], "Readings");
  writeColumnHeads(sheet, first - 1, "B", ["<no.", "^use", "pressure, Pa", "flow shown, m³/h", "induced, Pa"]);
  for (let row = first; row <= last; row++) {
    const reading = test.readings[row - first];
    sheet.put(`B${row}`, row - first + 1, style({ align: "left" }, looks.label));
    sheet.type(`C${row}`, reading ? "yes" : null, undefined, "center");
    sheet.type(`D${row}`, reading?.[0] ?? null, decimals(1)).type(`E${row}`, reading?.[1] ?? null, decimals(0));
    sheet.formula(`F${row}`, `IF(COUNT(D${row},${baseline})<2,"",D${row}-${baseline})`, native(decimals(2)));
  }
  sheet.validate(
    oneOf(`C${first}:C${last}`, ["yes", "no"], "Use", "no keeps a reading on the sheet without using it."),
    between(`D${first}:D${last}`, -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(`E${first}:E${last}`, 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
  );
}
