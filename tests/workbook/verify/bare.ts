import { ErrorValue } from "../../../src/workbook/model";
import { evaluateBook, openWorkbook, writeBack } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { dynamicArrays, packageOf, type PackageOptions } from "../file/package";
import { sheetData } from "../graph/test-workbook";
import { addIn } from "./tampered";

type Content = string | number | { readonly f: string; readonly ref?: string };
export type Cells = Record<string, Content>;

/** Readings of an invented house as a gauge shows them, to a tenth of a pascal, with the scatter of a calm day. */
export const house = {
  down: [-61.3, -54.2, -47.8, -40.6, -34.1, -27.3, -20.9, -14.2],
  flowsDown: [262.8, 241.6, 223.1, 200.2, 177.4, 152.9, 127.8, 96.9],
  up: [58.7, 52.1, 45.9, 39.2, 32.8, 26.4, 19.7, 13.9],
  flowsUp: [253.9, 236.2, 216.3, 196.1, 174.3, 151.6, 124.9, 99.8],
  before: [-1.2, -0.9, -1.4, -1.1, -1.3],
  after: [-1.0, -1.5, -1.2, -0.8, -1.1],
  beforeUp: [-0.7, -1.6, -1.2, -1.4, -0.9],
  afterUp: [-1.3, -0.6, -1.1, -1.5, -1.0],
} as const;

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/** Values below each other, or beside each other, from a cell on. */
export function put(cells: Cells, start: string, values: readonly Content[], line: "down" | "across" = "down"): void {
  const [letter = "A", row] = [start.slice(0, 1), Number(start.slice(1))];
  values.forEach((value, index) => {
    const column = line === "across" ? (letters[letters.indexOf(letter) + index] ?? letter) : letter;
    cells[`${column}${line === "down" ? row + index : row}`] = value;
  });
}

/** Settings from A60 on, those given in place of the usual ones or behind them; gives their range. */
export function settings(cells: Cells, given: Readonly<Record<string, Content>> = {}): string {
  const all: Record<string, Content> = {
    volume: 300,
    "floor area": 115,
    "indoor temperature": 21,
    "outdoor temperature": 8,
    "barometric pressure": 100_930,
    "flow basis": "actual at the fan",
    units: "SI",
    ...given,
  };
  Object.entries(all).forEach(([label, value], index) => put(cells, `A${60 + index}`, [label, value], "across"));
  return `A60:B${59 + Object.keys(all).length}`;
}

/** The two calls of the whole test, their checks and the mean n50. */
export function evaluation(cells: Cells, down: string, up: string): void {
  cells["AA2"] = { f: `_xldudf_STILLAIR_TESTRESULT("depressurization",${down})`, ref: "AA2:AG42" };
  cells["AI2"] = { f: `_xldudf_STILLAIR_TESTRESULT("pressurization",${up})`, ref: "AI2:AO42" };
  cells["AA44"] = { f: `_xldudf_STILLAIR_VALIDITYCHECKS("depressurization",${down})`, ref: "AA44:AI78" };
  cells["AA84"] = { f: `_xldudf_STILLAIR_VALIDITYCHECKS("pressurization",${up})`, ref: "AA84:AI118" };
  const n50 = (values: string, symbols: string) => `INDEX(${values},MATCH("n50",${symbols},0))`;
  put(
    cells,
    "A50",
    ["n50, mean", { f: `AVERAGE(${n50("AC2:AC39", "AB2:AB39")},${n50("AK2:AK39", "AJ2:AJ39")})` }],
    "across",
  );
}

/** A firm's own sheet: both directions side by side, readings downwards, no look of its own. */
export function ownSheet(
  given: Readonly<Record<string, Content>> = {},
  change: (cells: Cells) => void = () => {},
): Cells {
  const cells: Cells = { A1: "building Pa", B1: "flow m³/h", D1: "building Pa", E1: "flow m³/h" };
  put(cells, "A2", house.down);
  put(cells, "B2", house.flowsDown);
  put(cells, "D2", house.up);
  put(cells, "E2", house.flowsUp);
  put(cells, "G3", house.before);
  put(cells, "H3", house.after);
  put(cells, "I3", house.beforeUp);
  put(cells, "J3", house.afterUp);
  const range = settings(cells, given);
  evaluation(cells, `A2:A9,B2:B9,G3:G7,H3:H7,${range}`, `D2:D9,E2:E9,I3:I7,J3:J7,${range}`);
  change(cells);
  return cells;
}

/** What a cell of the only sheet shows: its value, or its error with the reason. */
export function shownIn(cells: Cells, wanted: string): unknown {
  const { book } = openWorkbook(
    packageOf({ sheets: [sheetData(cells)], sheetNames: ["Test"], metadata: dynamicArrays }),
  );
  const [letter = "A", row] = [wanted.slice(0, 1), Number(wanted.slice(1))];
  const found = evaluateBook(book, { addIn }).cells.find(
    (cell) => cell.row === row - 1 && cell.column === letters.indexOf(letter),
  );
  if (!found?.outcome.evaluated) throw new Error(`${wanted} is not evaluated`);
  const { value } = found.outcome;
  return value instanceof ErrorValue ? `${value.code} ${value.reason}` : value;
}

/** What a review says against sheets that were saved with the values that they give, as another program may have stored them: notes are left out. */
export function saidOf(
  sheets: Readonly<Record<string, Cells>>,
  stored = (xml: string): string => xml,
  more: Partial<PackageOptions> = {},
): string[] {
  const opened = openWorkbook(
    packageOf({
      sheets: Object.values(sheets).map((cells) => stored(sheetData(cells))),
      sheetNames: Object.keys(sheets),
      metadata: dynamicArrays,
      ...more,
    }),
  );
  const changes = evaluateBook(opened.book, { addIn }).cells.flatMap(({ sheet, row, column, outcome }) =>
    outcome.evaluated ? [{ sheet, row, column, value: outcome.value }] : [],
  );
  const saved = openWorkbook(writeBack(opened, changes));
  const { findings } = verifyWorkbook(saved, addIn, new Date("2026-11-02T09:00:00Z"));
  const against = findings.filter(({ severity }) => severity !== "note");
  return against.map(({ severity, kind, place, what }) => `${severity}: ${kind} in ${place}: ${what}`);
}
