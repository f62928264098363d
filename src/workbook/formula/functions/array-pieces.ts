import { boundArray, largestArray } from "../values/broadcast";
import { isError, toInteger } from "../values/coerce";
import { takes, takesMany, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, Matrix, type Scalar, type Value } from "../values/value";
import { alongside, ofRows, rowsOfMatrix, transposed } from "./matrix-rows";

/** TAKE and DROP: rows or columns from the front, or with negative counts from the back. */
function cut(count: number | undefined, length: number, drop: boolean): readonly [number, number] | undefined {
  if (count === undefined) return [0, length];
  const size = Math.min(Math.abs(toInteger(count)), length);
  const fromBack = count < 0;
  const from = drop ? (fromBack ? 0 : size) : fromBack ? length - size : 0;
  const to = drop ? (fromBack ? length - size : length) : fromBack ? length : size;
  return to > from ? [from, to] : undefined;
}

const cutting = (drop: boolean) =>
  takes(["array", "number??", "number??"], ([matrix, rows, columns]) => {
    const vertical = cut(rows, matrix.rows, drop);
    const horizontal = cut(columns, matrix.columns, drop);
    if (!vertical || !horizontal) return errors.calculation;
    return ofRows(
      rowsOfMatrix(matrix)
        .slice(...vertical)
        .map((row) => row.slice(...horizontal)),
    );
  });

const picking = (byColumn: boolean) =>
  takesMany(["array"], ["array"], 2, ([matrix], picks) => {
    const length = byColumn ? matrix.columns : matrix.rows;
    const places: number[] = [];
    for (const pick of picks.flatMap(({ values }) => values)) {
      if (isError(pick)) return pick;
      if (typeof pick !== "number") return errors.value;
      const place = toInteger(pick);
      if (place === 0 || Math.abs(place) > length) return errors.value;
      places.push(place > 0 ? place - 1 : length + place);
    }
    boundArray(places.length, byColumn ? matrix.rows : matrix.columns);
    return alongside(matrix, byColumn, (rows) => places.map((place) => rows[place] ?? []));
  });

function stacked(matrices: readonly Matrix[]): Value {
  const columns = matrices.reduce((most, matrix) => Math.max(most, matrix.columns), 0);
  const rows = matrices.reduce((sum, matrix) => sum + matrix.rows, 0);
  boundArray(rows, columns);
  const values: Scalar[] = [];
  for (const matrix of matrices)
    for (let row = 0; row < matrix.rows; row += 1)
      for (let column = 0; column < columns; column += 1)
        values.push(column < matrix.columns ? matrix.at(row, column) : errors.notAvailable);
  return new Matrix(rows, columns, values);
}

function wrapped(matrix: Matrix, count: number, padding: Scalar, byColumn: boolean): Value {
  if (matrix.rows !== 1 && matrix.columns !== 1) return errors.value;
  const size = toInteger(count);
  if (size < 1) return errors.number;
  // What fits into one row or column is returned as it is, without padding.
  const full = Math.min(size, matrix.values.length);
  const rows: Scalar[][] = [];
  for (let from = 0; from < matrix.values.length; from += size) {
    const row = matrix.values.slice(from, from + size);
    rows.push([...row, ...Array<Scalar>(full - row.length).fill(padding)]);
  }
  const result = ofRows(rows);
  return byColumn && result instanceof Matrix ? transposed(result) : result;
}

/** TOCOL and TOROW: all values in one column or row, without blanks (1), errors (2) or both (3). */
const inOneLine = (asColumn: boolean) =>
  takes(["array", "number??", "logical??"], ([matrix, ignore = 0, byColumn = false]) => {
    const kind = toInteger(ignore);
    if (kind < 0 || kind > 3) return errors.value;
    const kept = (byColumn ? transposed(matrix) : matrix).values.filter(
      (value) => !((kind % 2 === 1 && value === null) || (kind >= 2 && isError(value))),
    );
    return ofRows(asColumn ? kept.map((value) => [value]) : [kept]);
  });

/** Arrays cut, picked from, stacked and wrapped. */
export const arrayPieces: FunctionTable = {
  TAKE: cutting(false),
  DROP: cutting(true),
  CHOOSECOLS: picking(true),
  CHOOSEROWS: picking(false),
  VSTACK: takesMany([], ["array"], 1, (_, matrices) => stacked(matrices)),
  HSTACK: takesMany([], ["array"], 1, (_, matrices) => {
    const result = stacked(matrices.map(transposed));
    return result instanceof Matrix ? transposed(result) : result;
  }),
  TOCOL: inOneLine(true),
  TOROW: inOneLine(false),
  EXPAND: takes(["array", "number??", "number??", "any?"], ([matrix, rows, columns, padding = errors.notAvailable]) => {
    const tall = rows === undefined ? matrix.rows : toInteger(rows);
    const wide = columns === undefined ? matrix.columns : toInteger(columns);
    if (tall < matrix.rows || wide < matrix.columns) return errors.value;
    if (tall * wide > largestArray) return refuse("EXPAND to more than two million values");
    return ofRows(
      Array.from({ length: tall }, (_, row) =>
        Array.from({ length: wide }, (__, column) =>
          row < matrix.rows && column < matrix.columns ? matrix.at(row, column) : padding,
        ),
      ),
    );
  }),
  WRAPROWS: takes(["array", "number", "any?"], ([matrix, count, padding = errors.notAvailable]) =>
    wrapped(matrix, count, padding, false),
  ),
  WRAPCOLS: takes(["array", "number", "any?"], ([matrix, count, padding = errors.notAvailable]) =>
    wrapped(matrix, count, padding, true),
  ),
};
