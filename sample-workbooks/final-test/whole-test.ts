import { call, keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import type { Conditions } from "./conditions";
import { sheets } from "./places";
import type { Direction } from "./readings";
import { columns } from "./steps";
import { guardedCell, placeIn, tableHeads, tableLook } from "./tables";

const first = 7;

/** Rows of the whole-test table, in their settled order. */
const symbols = [
  ..."direction count dp01 dp02 dp0 dp_min dp_max rho_i rho_e p_bar basis k_q q_min q_max dof t n s_n C s_lnC r2 standard rho_leak".split(
    " ",
  ),
  ..."C_L q50 n50 qE50 qF50 p_r q_pr n_pr qE_pr qF_pr ELA4 AL10 EqLA10".split(" "),
];

const last = first + symbols.length - 1;

/** Where other sheets find the whole test's rows, each by the row's symbol. */
export interface WholeTestPlaces {
  readonly value: (symbol: string) => string;
  readonly lower: (symbol: string) => string;
  readonly upper: (symbol: string) => string;
}

/** The settings as label and value, and the whole test that reads them together with the raw readings. */
export function wholeTestSections(sheet: Sheet, direction: Direction, conditions: Conditions): WholeTestPlaces {
  const settings = settingsBlock(sheet, conditions);
  section(sheet, 5, ["AG", "AM"], "Every step of the test, a row each");
  columnHeads(sheet, 6, "AG", tableHeads);
  const arguments_ = [
    quoted(direction),
    columns.reading,
    columns.indicated,
    keepBlanks(conditions.baselineBefore),
    keepBlanks(conditions.baselineAfter),
    settings,
    columns.include,
  ];
  sheet.addIn(`AG${first}:AM${last}`, call("TESTRESULT", ...arguments_), (row, column) =>
    tableLook(column, symbols[row] ?? ""),
  );
  const pick = (letters: string) => (symbol: string) => {
    const row = first + placeIn(symbols, symbol);
    return guardedCell(symbol, onSheet(sheets[direction], `AH${row}`), onSheet(sheets[direction], `${letters}${row}`));
  };
  return { value: pick("AI"), lower: pick("AJ"), upper: pick("AK") };
}

function settingsBlock(sheet: Sheet, conditions: Conditions): string {
  section(sheet, 5, ["AD", "AE"], "Settings");
  columnHeads(sheet, 6, "AD", ["<label", "<value"]);
  const blankAware = (cell: string) => `IF(${cell}="","",${cell})`;
  const lines: readonly (readonly [label: string, value: { formula: string; format?: string } | string | number])[] = [
    ["volume", { formula: "InternalVolume", format: decimals(1) }],
    ["envelope area", { formula: "EnvelopeArea", format: decimals(1) }],
    ["floor area", { formula: "FloorArea", format: decimals(1) }],
    ["volume convention", { formula: "VolumeConvention" }],
    ["indoor temperature", { formula: blankAware(conditions.indoorTemperature), format: decimals(2) }],
    ["outdoor temperature", { formula: blankAware(conditions.outdoorTemperature), format: decimals(2) }],
    ["barometric pressure", { formula: blankAware(conditions.barometer), format: decimals(0) }],
    ["indoor humidity", { formula: blankAware(conditions.indoorHumidity), format: decimals(2) }],
    ["outdoor humidity", { formula: blankAware(conditions.outdoorHumidity), format: decimals(2) }],
    ["flow basis", "indicated at calibration density"],
    ["calibration density", { formula: "CalibrationDensity", format: decimals(4) }],
    ["pressure sign", "indoors minus outdoors"],
    ["standard", "ISO 9972"],
    ["technique", "ordinary"],
    ["confidence", 0.95],
    ["reference pressure", { formula: "TargetPressure", format: decimals(0) }],
    ["units", "SI"],
    ["headings", "no"],
  ];
  lines.forEach(([label, value], index) => {
    const row = first + index;
    sheet.put(`AD${row}`, label, looks.label);
    if (typeof value === "object") sheet.formula(`AE${row}`, value.formula, native(value.format, "left"));
    else sheet.put(`AE${row}`, value, native(undefined, "left"));
  });
  const note = first + lines.length + 1;
  sheet.put(
    `AD${note}`,
    "Each setting comes from the sheet where it is typed or chosen; the words describe how this template is laid out, so they are not typed here. Volume and areas: Rooms. Calibration density: Instruments. Reference pressure: Criteria.",
    looks.note,
  );
  sheet.merge(`AD${note}:AE${note + 6}`);
  return `$AD$${first}:$AE$${first + lines.length - 1}`;
}
