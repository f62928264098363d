import type { Caller } from "../calls/caller";
import { isError, toInteger } from "../values/coerce";
import { takes, type FunctionTable, type Lazy } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { matrixOf } from "./gather";
import { exactPlace, nearestPlace, sortedPlace, refuseUnsorted, wantedOf, type Wanted } from "./search-vector";
import { hasWildcards } from "./wildcards";

const isVector = ({ rows, columns }: Matrix): boolean => rows === 1 || columns === 1;

/** A row or column of a matrix. */
const rowOf = (matrix: Matrix, row: number): Scalar[] =>
  matrix.values.slice(row * matrix.columns, (row + 1) * matrix.columns);
const columnOf = (matrix: Matrix, column: number): Scalar[] =>
  Array.from({ length: matrix.rows }, (_, row) => matrix.at(row, column));

/** VLOOKUP and HLOOKUP: looks along the first column or row, answers from another. */
function tableLookup(along: "column" | "row") {
  return takes(["scalar", "table", "number", "logical?"], ([value, table, index, sorted = true], caller) => {
    const matrix = matrixOf(table, caller);
    if (isError(matrix)) return matrix;
    const turn = toInteger(index);
    if (turn < 1) return errors.value;
    if (turn > (along === "column" ? matrix.columns : matrix.rows)) return errors.reference;
    const list = along === "column" ? columnOf(matrix, 0) : rowOf(matrix, 0);
    const wanted = wantedOf(value, list);
    const place =
      wanted === undefined ? -1 : sorted ? sortedPlace(list, wanted, "ascending") : exactPlace(list, wanted, true);
    if (place < 0) return errors.notAvailable;
    return along === "column" ? matrix.at(place, turn - 1) : matrix.at(turn - 1, place);
  });
}

/** The place that XLOOKUP and XMATCH find, or −1. */
function place(list: readonly Scalar[], value: Wanted | undefined, mode: number, search: number): number {
  if (value === undefined) return -1;
  if (Math.abs(search) === 2) refuseUnsorted(list, search > 0 ? "ascending" : "descending");
  else if (Math.abs(search) !== 1) return refuse("a way of searching that XLOOKUP and XMATCH do not have");
  if (Math.abs(search) === 2 && mode === 2) return refuse("a binary search with wildcards");
  const fromEnd = search === -1;
  if (mode === 0) return exactPlace(list, value, false, fromEnd);
  if (mode === 2) return exactPlace(list, value, true, fromEnd);
  if (mode === -1 || mode === 1) return nearestPlace(list, value, mode === -1 ? "smaller" : "larger", fromEnd);
  return refuse("a regular expression in XLOOKUP or XMATCH");
}

/** A row or column of what XLOOKUP returns: part of a reference stays a reference. */
function slice(result: Value, at: number, vertical: boolean, length: number, caller: Caller): Value {
  if (result instanceof Reference) {
    const { area } = result;
    if (!area) return errors.value;
    const size = vertical ? area.bottom - area.top + 1 : area.right - area.left + 1;
    if (size !== length) return errors.value;
    return new Reference([
      vertical
        ? { ...area, top: area.top + at, bottom: area.top + at }
        : { ...area, left: area.left + at, right: area.left + at },
    ]);
  }
  const matrix = matrixOf(result, caller);
  if (isError(matrix)) return matrix;
  if ((vertical ? matrix.rows : matrix.columns) !== length) return errors.value;
  return vertical
    ? new Matrix(1, matrix.columns, rowOf(matrix, at), false)
    : new Matrix(matrix.rows, 1, columnOf(matrix, at), false);
}

/** Whole columns are as long as the sheet, however little of them is read. */
const lengthOf = (value: Value, matrix: Matrix): number =>
  value instanceof Reference && value.area
    ? Math.max(value.area.bottom - value.area.top, value.area.right - value.area.left) + 1
    : matrix.values.length;

const otherwise = (given: Lazy | undefined): Value =>
  given === undefined || given.empty ? errors.notAvailable : given.value();

/** Finding values in lists and tables. */
export const lookups: FunctionTable = {
  MATCH: takes(["scalar", "values", "number?"], ([value, given, type = 1], caller) => {
    if (given instanceof Omitted) return errors.notAvailable;
    const matrix = matrixOf(given, caller);
    if (isError(matrix)) return matrix;
    if (!isVector(matrix)) return errors.notAvailable;
    const list = matrix.values;
    const wanted = wantedOf(value, list);
    if (wanted === undefined) return errors.notAvailable;
    const at =
      type === 0 ? exactPlace(list, wanted, true) : sortedPlace(list, wanted, type > 0 ? "ascending" : "descending");
    return at < 0 ? errors.notAvailable : at + 1;
  }),
  XMATCH: takes(["scalar", "values", "number?", "number?"], ([value, given, mode = 0, search = 1], caller) => {
    const matrix = matrixOf(given, caller);
    if (isError(matrix)) return matrix;
    if (!isVector(matrix)) return errors.value;
    const at = place(matrix.values, wantedOf(value, matrix.values), toInteger(mode), toInteger(search));
    return at < 0 ? errors.notAvailable : at + 1;
  }),
  VLOOKUP: tableLookup("column"),
  HLOOKUP: tableLookup("row"),
  LOOKUP: takes(["scalar", "table", "table??"], ([value, given, results], caller) => {
    const matrix = matrixOf(given, caller);
    if (isError(matrix)) return matrix;
    const alongRow = matrix.columns > matrix.rows;
    const list = isVector(matrix) ? matrix.values : alongRow ? rowOf(matrix, 0) : columnOf(matrix, 0);
    const wanted = wantedOf(value, list);
    const at = wanted === undefined ? -1 : sortedPlace(list, wanted, "ascending");
    if (at < 0) return errors.notAvailable;
    if (results === undefined) {
      if (isVector(matrix)) return matrix.values[at] ?? null;
      return alongRow ? matrix.at(matrix.rows - 1, at) : matrix.at(at, matrix.columns - 1);
    }
    const answers = matrixOf(results, caller);
    if (isError(answers)) return answers;
    if (!isVector(answers)) return errors.notAvailable;
    return at < answers.values.length
      ? (answers.values[at] ?? null)
      : refuse("LOOKUP with a result range shorter than its list");
  }),
  XLOOKUP: takes(
    ["scalar", "values", "values", "lazy?", "number?", "number?"],
    ([value, given, result, missing, mode = 0, search = 1], caller) => {
      const matrix = matrixOf(given, caller);
      if (isError(matrix)) return matrix;
      if (!isVector(matrix)) return errors.value;
      if (typeof value === "string" && toInteger(mode) === 2 && hasWildcards(value) && value.length > 255)
        return errors.value;
      const at = place(matrix.values, wantedOf(value, matrix.values), toInteger(mode), toInteger(search));
      if (at < 0) return otherwise(missing);
      return slice(result, at, matrix.columns === 1, lengthOf(given, matrix), caller);
    },
  ),
};
