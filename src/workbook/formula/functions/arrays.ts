import type { Caller } from "../caller";
import { isError, toInteger } from "../coerce";
import { takes, takesMany, type FunctionTable } from "../function-entry";
import { refuse } from "../refusal";
import { errors, Matrix, type Scalar, type Value } from "../value";
import { largestArray } from "../broadcast";
import { sortedOrder } from "./sorting";
import { sameText } from "../comparison";

/** A matrix from rows; without any it is Excel's empty array, #CALC!. */
export function ofRows(rows: readonly (readonly Scalar[])[], fromCells = false): Value {
  const columns = rows[0]?.length ?? 0;
  return rows.length === 0 || columns === 0
    ? errors.calculation
    : new Matrix(rows.length, columns, rows.flat(), false, undefined, fromCells);
}

export const rowsOfMatrix = (matrix: Matrix): Scalar[][] =>
  Array.from({ length: matrix.rows }, (_, row) =>
    matrix.values.slice(row * matrix.columns, (row + 1) * matrix.columns),
  );

export const transposed = (matrix: Matrix): Matrix =>
  new Matrix(
    matrix.columns,
    matrix.rows,
    Array.from({ length: matrix.values.length }, (_, place) =>
      matrix.at(place % matrix.rows, Math.floor(place / matrix.rows)),
    ),
    matrix.constant,
    undefined,
    matrix.fromCells,
  );

/** Works on rows, or on columns by turning the matrix round and back. */
function alongside(
  matrix: Matrix,
  byColumn: boolean,
  work: (rows: Scalar[][]) => readonly (readonly Scalar[])[],
): Value {
  const result = ofRows(work(rowsOfMatrix(byColumn ? transposed(matrix) : matrix)), matrix.fromCells);
  return byColumn && result instanceof Matrix ? transposed(result) : result;
}

const sameValue = (a: Scalar, b: Scalar): boolean => {
  if (typeof a === "string" && typeof b === "string") return sameText(a, b);
  return isError(a) && isError(b) ? a.code === b.code : (a ?? "") === (b ?? "") && typeof a === typeof b;
};

function filtered(matrix: Matrix, include: Matrix, empty: (() => Value) | undefined): Value {
  const byColumn = include.rows === 1 && include.columns === matrix.columns && matrix.rows !== 1;
  const length = byColumn ? matrix.columns : matrix.rows;
  if ((byColumn ? include.columns : include.rows) !== length || (include.rows !== 1 && include.columns !== 1))
    return errors.value;
  const wrong = include.values.find((value) => isError(value));
  if (wrong !== undefined) return wrong;
  if (include.values.some((value) => typeof value === "string")) return errors.value;
  const result = alongside(matrix, byColumn, (rows) => rows.filter((_, row) => Boolean(include.values[row])));
  return result instanceof Matrix ? result : (empty?.() ?? errors.calculation);
}

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
      matrix.fromCells,
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
    return alongside(matrix, byColumn, (rows) => places.map((place) => rows[place] ?? []));
  });

function stacked(matrices: readonly Matrix[]): Value {
  const columns = Math.max(...matrices.map((matrix) => matrix.columns));
  const rows = matrices
    .flatMap(rowsOfMatrix)
    .map((row) => [...row, ...Array<Scalar>(columns - row.length).fill(errors.notAvailable)]);
  return ofRows(
    rows,
    matrices.every((matrix) => matrix.fromCells),
  );
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
  const result = ofRows(rows, matrix.fromCells);
  return byColumn && result instanceof Matrix ? transposed(result) : result;
}

function distinct(rows: readonly Scalar[][], once: boolean): Scalar[][] {
  const groups: { row: Scalar[]; count: number }[] = [];
  for (const row of rows) {
    const known = groups.find((group) => group.row.every((value, place) => sameValue(value, row[place] ?? null)));
    if (known) known.count += 1;
    else groups.push({ row, count: 1 });
  }
  return groups.filter(({ count }) => !once || count === 1).map(({ row }) => row);
}

function sequence(rows: number, columns: number, start: number, step: number, caller: Caller): Value {
  const tall = toInteger(rows);
  const wide = toInteger(columns);
  if (tall < 0 || wide < 0) return errors.value;
  if (tall === 0 || wide === 0) return errors.calculation;
  if (tall * wide > largestArray) refuse(`${caller.name} of more than two million numbers`);
  return new Matrix(
    tall,
    wide,
    Array.from({ length: tall * wide }, (_, place) => start + place * step),
  );
}

/** Arrays turned, cut, joined, filtered and sorted. */
export const arrayFunctions: FunctionTable = {
  TRANSPOSE: takes(["array"], ([matrix]) => transposed(matrix)),
  SEQUENCE: takes(["number", "number??", "number??", "number??"], ([rows, columns = 1, start = 1, step = 1], caller) =>
    sequence(rows, columns, start, step, caller),
  ),
  FILTER: takes(["array", "array", "lazy??"], ([matrix, include, empty]) =>
    filtered(matrix, include, empty && (() => empty.value())),
  ),
  UNIQUE: takes(["array", "logical??", "logical??"], ([matrix, byColumn = false, once = false]) =>
    alongside(matrix, byColumn, (rows) => distinct(rows, once)),
  ),
  SORT: takes(
    ["array", "number??", "number??", "logical??"],
    ([matrix, index = 1, direction = 1, byColumn = false]) => {
      const place = toInteger(index) - 1;
      if (place < 0 || place >= (byColumn ? matrix.rows : matrix.columns) || Math.abs(direction) !== 1)
        return errors.value;
      return alongside(matrix, byColumn, (rows) =>
        sortedOrder([{ keys: rows.map((row) => row[place] ?? null), descending: direction < 0 }]).map(
          (at) => rows[at] ?? [],
        ),
      );
    },
  ),
  SORTBY: takesMany(["array"], ["array"], 2, ([matrix], rest) => {
    const levels: { keys: readonly Scalar[]; descending: boolean }[] = [];
    for (let place = 0; place < rest.length; place += 2) {
      const keys = rest[place] as Matrix;
      const direction = rest[place + 1]?.at(0, 0) ?? 1;
      if (keys.values.length !== matrix.rows || keys.columns !== 1)
        return refuse("SORTBY by a row or by a range of another size");
      if (direction !== 1 && direction !== -1) return errors.value;
      levels.push({ keys: keys.values, descending: direction < 0 });
    }
    const rows = rowsOfMatrix(matrix);
    return ofRows(
      sortedOrder(levels).map((at) => rows[at] ?? []),
      matrix.fromCells,
    );
  }),
  TAKE: cutting(false),
  DROP: cutting(true),
  CHOOSECOLS: picking(true),
  CHOOSEROWS: picking(false),
  VSTACK: takesMany([], ["array"], 1, (_, matrices) => stacked(matrices)),
  HSTACK: takesMany([], ["array"], 1, (_, matrices) => {
    const result = stacked(matrices.map(transposed));
    return result instanceof Matrix ? transposed(result) : result;
  }),
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
