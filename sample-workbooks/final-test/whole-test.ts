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
  section(sheet, 5, ["AK", "AQ"], "Every step of the test, a row each");
  columnHeads(sheet, 6, "AK", tableHeads);
  const arguments_ = [
    quoted(direction),
    columns.reading,
    columns.indicated,
    keepBlanks(conditions.baselineBefore),
    keepBlanks(conditions.baselineAfter),
    settings,
    columns.include,
  ];
  sheet.addIn(`AK${first}:AQ${last}`, call("TESTRESULT", ...arguments_), (row, column) =>
    tableLook(column, symbols[row] ?? ""),
  );
  const pick = (letters: string) => (symbol: string) => {
    const row = first + placeIn(symbols, symbol);
    return guardedCell(symbol, onSheet(sheets[direction], `AL${row}`), onSheet(sheets[direction], `${letters}${row}`));
  };
  return { value: pick("AM"), lower: pick("AN"), upper: pick("AO") };
}

function settingsBlock(sheet: Sheet, conditions: Conditions): string {
  section(sheet, 5, ["AH", "AI"], "Settings");
  columnHeads(sheet, 6, "AH", ["<label", "<value"]);
  const blankAware = (cell: string) => `IF(${cell}="","",${cell})`;
  const lines: readonly (readonly [label: string, value: { formula: string; format?: string } | string | number])[] = [
    ["volume", { formula: "InternalVolume", format: decimals(1) }],
    ["envelope area", { formula: 'IFERROR(EnvelopeArea,"")', format: decimals(1) }],
    ["floor area", { formula: "FloorArea", format: decimals(1) }],
    ["volume convention", { formula: "VolumeConvention" }],
    ["indoor temperature", { formula: blankAware(conditions.indoorTemperature), format: decimals(2) }],
    ["outdoor temperature", { formula: blankAware(conditions.outdoorTemperature), format: decimals(2) }],
    ["barometric pressure", { formula: blankAware(conditions.barometer), format: decimals(0) }],
    ["indoor humidity", { formula: blankAware(conditions.indoorHumidity), format: decimals(2) }],
    ["outdoor humidity", { formula: blankAware(conditions.outdoorHumidity), format: decimals(2) }],
    ["flow basis", "indicated at calibration density"],
    ["calibration density", { formula: conditions.calibrationDensity, format: decimals(4) }],
    ["pressure sign", "indoors minus outdoors"],
    ["standard", "ISO 9972"],
    ["technique", "ordinary"],
    ["confidence", 0.95],
    ["reference pressure", { formula: 'IFERROR(TargetPressure,"")', format: decimals(0) }],
    ["units", "SI"],
    ["headings", "no"],
  ];
  lines.forEach(([label, value], index) => {
    const row = first + index;
    sheet.put(`AH${row}`, label, looks.label);
    if (typeof value === "object") sheet.formula(`AI${row}`, value.formula, native(value.format, "left"));
    else sheet.put(`AI${row}`, value, native(undefined, "left"));
  });
  const note = first + lines.length + 1;
  sheet.put(
    `AH${note}`,
    "Each setting comes from the sheet where it is typed or chosen; the words describe how this template is laid out, so they are not typed here. Volume and areas: Rooms. Calibration density: Instruments. Reference pressure: Criteria.",
    looks.note,
  );
  sheet.merge(`AH${note}:AI${note + 6}`);
  return `$AH$${first}:$AI$${first + lines.length - 1}`;
}
