import { columnsOf, rowsOf } from "../../book/area";
import { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, type Lazy, takes } from "../calls/function-entry";
import { isError, toInteger } from "../values/coerce";
import { order, haveSameDigits, isSameText } from "../values/comparison";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { readMatrix } from "./gather";
import { hasWildcards, refuseIdleTilde, resolveEscapes, createWildcardTest } from "./wildcards";

const isVector = ({ rows, columns }: Matrix): boolean => rows === 1 || columns === 1;

/** A row or column of a matrix. */
const readRow = (matrix: Matrix, row: number): Scalar[] =>
  matrix.values.slice(row * matrix.columns, (row + 1) * matrix.columns);
const readColumn = (matrix: Matrix, column: number): Scalar[] =>
  Array.from({ length: matrix.rows }, (_, row) => matrix.at(row, column));

/** VLOOKUP and HLOOKUP: looks along the first column or row, answers from another. */
function defineTableLookup(along: "column" | "row") {
  return takes(["scalar", "table", "number", "logical?"], ([value, table, index, sorted = true], caller) => {
    const matrix = readMatrix(table, caller);
    if (isError(matrix)) return matrix;
    if (!(table instanceof Matrix || table instanceof Reference)) return errors.value;
    const turn = toInteger(index);
    const list = along === "column" ? readColumn(matrix, 0) : readRow(matrix, 0);
    const wanted = value ?? 0;
    const place = sorted ? findSortedPlace(list, wanted, "ascending") : findExactPlace(list, wanted, true);
    // What is not found is #N/A, however wrong the number of the column.
    if (place < 0) return errors.notAvailable;
    if (turn < 1) return errors.value;
    if (turn > (along === "column" ? matrix.columns : matrix.rows)) return errors.reference;
    return along === "column" ? matrix.at(place, turn - 1) : matrix.at(turn - 1, place);
  });
}

/** The place that XLOOKUP and XMATCH find, or −1; #VALUE! for a binary search with wildcards. */
function place(list: readonly Scalar[], value: Wanted | null, mode: number, search: number): number | ErrorValue {
  if (Math.abs(search) === 2 && mode === 2) return errors.value;
  if (value === null) return refuseBlank(list, mode);
  if (Math.abs(search) === 2) refuseUnsorted(list, search > 0 ? "ascending" : "descending");
  else if (Math.abs(search) !== 1) return refuse("a way of searching that XLOOKUP and XMATCH do not have");
  const fromEnd = search === -1;
  if (mode === 0) return findExactPlace(list, value, false, fromEnd);
  if (mode === 2) return findExactPlace(list, value, true, fromEnd);
  if (mode === -1 || mode === 1) return findNearestPlace(list, value, mode === -1 ? "smaller" : "larger", fromEnd);
  return refuse("a regular expression in XLOOKUP or XMATCH");
}

/** A row or column of what XLOOKUP returns: part of a reference stays a reference. */
function cutSlice(result: Value, at: number, vertical: boolean, length: number, caller: Caller): Value {
  if (result instanceof Reference) {
    const { area } = result;
    if (!area) return errors.value;
    const size = vertical ? rowsOf(area) : columnsOf(area);
    if (size !== length) return errors.value;
    return new Reference([
      vertical
        ? { ...area, top: area.top + at, bottom: area.top + at }
        : { ...area, left: area.left + at, right: area.left + at },
    ]);
  }
  const matrix = readMatrix(result, caller);
  if (isError(matrix)) return matrix;
  if ((vertical ? matrix.rows : matrix.columns) !== length) return errors.value;
  return vertical
    ? new Matrix(1, matrix.columns, readRow(matrix, at), false)
    : new Matrix(matrix.rows, 1, readColumn(matrix, at), false);
}

/** Whole columns are as long as the sheet, however little of them is read. */
const measureLength = (value: Value, matrix: Matrix): number =>
  value instanceof Reference && value.area
    ? Math.max(value.area.bottom - value.area.top, value.area.right - value.area.left) + 1
    : matrix.values.length;

const evaluateFallback = (given: Lazy | undefined): Value =>
  given === undefined || given.empty ? errors.notAvailable : given.value();

/** Finding values in lists and tables. */
export const lookups: FunctionTable = {
  MATCH: takes(["scalar", "values", "number?"], ([value, given, type = 1], caller) => {
    if (given instanceof Omitted) return errors.notAvailable;
    const matrix = readMatrix(given, caller);
    if (isError(matrix)) return matrix;
    if (!isVector(matrix)) return errors.notAvailable;
    const list = matrix.values;
    const wanted = value ?? 0;
    const at =
      type === 0
        ? findExactPlace(list, wanted, true)
        : findSortedPlace(list, wanted, type > 0 ? "ascending" : "descending");
    return at < 0 ? errors.notAvailable : at + 1;
  }),
  XMATCH: takes(["scalar", "values", "number?", "number?"], ([value, given, mode = 0, search = 1], caller) => {
    const matrix = readMatrix(given, caller);
    if (isError(matrix)) return matrix;
    if (!isVector(matrix)) return errors.value;
    const at = place(matrix.values, value, toInteger(mode), toInteger(search));
    return isError(at) ? at : at < 0 ? errors.notAvailable : at + 1;
  }),
  VLOOKUP: defineTableLookup("column"),
  HLOOKUP: defineTableLookup("row"),
  LOOKUP: takes(["scalar", "table", "table??"], ([value, given, results], caller) => {
    const matrix = readMatrix(given, caller);
    if (isError(matrix)) return matrix;
    const alongRow = matrix.columns > matrix.rows;
    const list = isVector(matrix) ? matrix.values : alongRow ? readRow(matrix, 0) : readColumn(matrix, 0);
    const at = findSortedPlace(list, value ?? 0, "ascending");
    if (at < 0) return errors.notAvailable;
    if (results === undefined) {
      if (isVector(matrix)) return matrix.values[at] ?? null;
      return alongRow ? matrix.at(matrix.rows - 1, at) : matrix.at(at, matrix.columns - 1);
    }
    const answers = readMatrix(results, caller);
    if (isError(answers)) return answers;
    if (!isVector(answers)) return errors.notAvailable;
    return at < answers.values.length
      ? (answers.values[at] ?? null)
      : refuse("LOOKUP with a result range shorter than its list");
  }),
  XLOOKUP: takes(
    ["scalar", "values", "values", "lazy?", "number?", "number?"],
    ([value, given, result, missing, mode = 0, search = 1], caller) => {
      const matrix = readMatrix(given, caller);
      if (isError(matrix)) return matrix;
      if (!isVector(matrix)) return errors.value;
      if (typeof value === "string" && toInteger(mode) === 2 && hasWildcards(value) && value.length > 255)
        return errors.value;
      const at = place(matrix.values, value, toInteger(mode), toInteger(search));
      if (isError(at)) return at;
      if (at < 0) return evaluateFallback(missing);
      return cutSlice(result, at, matrix.columns === 1, measureLength(given, matrix), caller);
    },
  ),
};

/** What is looked up: no error, no blank. */
type Wanted = number | string | boolean;

/** A blank looked up by XLOOKUP or XMATCH, not found unless a blank or a zero in the list may answer it; the older functions take it for 0. */
function refuseBlank(list: readonly Scalar[], mode: number): -1 {
  const mayAnswer = list.some((element) => element === 0 || element === null || element === "" || element === false);
  return mayAnswer || mode !== 0 ? refuse("a blank looked up by XLOOKUP or XMATCH") : -1;
}

/** A test for equality with a value looked up; numbers that are the same only to 15 digits are refused. */
function createEqualityTest(wanted: Wanted, wildcards: boolean): (value: Scalar) => boolean {
  if (typeof wanted === "string" && wildcards) {
    refuseIdleTilde(wanted);
    const matches = hasWildcards(wanted)
      ? createWildcardTest(wanted)
      : (text: string) => isSameText(text, resolveEscapes(wanted));
    return (value) => typeof value === "string" && matches(value);
  }
  return (value) => {
    if (typeof value !== typeof wanted) return false;
    if (typeof value === "string" && typeof wanted === "string") return isSameText(value, wanted);
    if (typeof value === "number" && typeof wanted === "number" && value !== wanted && haveSameDigits(value, wanted)) {
      refuse("a number looked up that differs from the list only by rounding error");
    }
    return value === wanted;
  };
}

/** The first (or last) place of an equal value, or −1. */
function findExactPlace(list: readonly Scalar[], wanted: Wanted, wildcards: boolean, fromEnd = false): number {
  const test = createEqualityTest(wanted, wildcards);
  return fromEnd ? findLastPlace(list, test) : list.findIndex(test);
}

/**
 * The place of the last value not above (ascending) or not below (descending) in a sorted list, or −1. Excel halves the list
 * without looking whether it is sorted; on an unsorted one its answer is an accident, and it is refused.
 */
function findSortedPlace(list: readonly Scalar[], wanted: Wanted, direction: "ascending" | "descending"): number {
  const sign = direction === "ascending" ? 1 : -1;
  // A value above all others leads to the last one, sorted or not: LOOKUP(2, 1/(condition), …), LOOKUP(9.9E+307, A:A).
  const isAlike = (value: Scalar): boolean => typeof value === typeof wanted;
  if (sign > 0 && list.every((value) => !isAlike(value) || order(value, wanted) < 0))
    return findLastPlace(list, isAlike);
  let found = -1;
  let previous: Scalar = null;
  for (const [place, value] of list.entries()) {
    if (value instanceof ErrorValue) return refuse("an error value in a list searched as sorted");
    if (value === null || typeof value !== typeof wanted) continue;
    const step = previous === null ? 0 : order(value, previous) * sign;
    if (step < 0) return refuse("a list searched as sorted that is not");
    const difference = order(value, wanted) * sign;
    if (difference === 0 && value !== wanted && typeof value === "number")
      refuse("a number looked up that differs from the list only by rounding error");
    if (difference === 0 && step === 0 && previous !== null && sign < 0)
      refuse("equal values in a list searched downwards");
    if (difference <= 0) found = place;
    previous = value;
  }
  return found;
}

/** Refuses a list in which a search by halves finds what it finds by accident: unsorted, mixed, or with equal values. */
function refuseUnsorted(list: readonly Scalar[], direction: "ascending" | "descending"): void {
  const sign = direction === "ascending" ? 1 : -1;
  const isOrdered = list.every((value, place) => {
    if (value === null || value instanceof ErrorValue || typeof value !== typeof list[0]) return false;
    return place === 0 || order(value, list[place - 1] ?? null) * sign > 0;
  });
  if (!isOrdered) refuse(`a binary search in a list that is not strictly ${direction}`);
}

function findLastPlace(list: readonly Scalar[], test: (value: Scalar) => boolean): number {
  let place = list.length - 1;
  while (place >= 0 && !test(list[place] ?? null)) place -= 1;
  return place;
}

/** XLOOKUP's next smaller or larger value when none is equal: numbers, then texts, then FALSE and TRUE; the list need not be sorted. */
function findNearestPlace(
  list: readonly Scalar[],
  wanted: Wanted,
  side: "smaller" | "larger",
  fromEnd: boolean,
): number {
  const exact = findExactPlace(list, wanted, false, fromEnd);
  if (exact >= 0) return exact;
  let best = -1;
  for (const [place, value] of list.entries()) {
    if (value === null || value instanceof ErrorValue) continue;
    const difference = order(value, wanted);
    if (side === "smaller" ? difference > 0 : difference < 0) continue;
    const current = best < 0 ? null : (list[best] ?? null);
    const better = current === null ? 1 : order(value, current) * (side === "smaller" ? 1 : -1);
    if (better > 0 || (better === 0 && fromEnd)) best = place;
  }
  return best;
}
