import { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { boundArray, largestArray } from "../values/broadcast";
import { isError, toInteger, toNumber } from "../values/coerce";
import { order } from "../values/comparison";
import { refuse } from "../values/refusal";
import { errors, Matrix, type Scalar, type Value } from "../values/value";
import { spend } from "../work-limits";

/** A matrix from rows; without any it is Excel's empty array, #CALC!. */
export function buildFromRows(rows: readonly (readonly Scalar[])[]): Value {
  const columns = rows[0]?.length ?? 0;
  return rows.length === 0 || columns === 0 ? errors.calculation : new Matrix(rows.length, columns, rows.flat());
}

export const splitIntoRows = (matrix: Matrix): Scalar[][] =>
  Array.from({ length: matrix.rows }, (_, row) =>
    matrix.values.slice(row * matrix.columns, (row + 1) * matrix.columns),
  );

export const transposeMatrix = (matrix: Matrix): Matrix =>
  new Matrix(
    matrix.columns,
    matrix.rows,
    Array.from({ length: matrix.values.length }, (_, place) =>
      matrix.at(place % matrix.rows, Math.floor(place / matrix.rows)),
    ),
    matrix.constant,
  );

/** Works on rows, or on columns by turning the matrix round and back. */
function applyAlong(
  matrix: Matrix,
  byColumn: boolean,
  work: (rows: Scalar[][]) => readonly (readonly Scalar[])[],
): Value {
  const result = buildFromRows(work(splitIntoRows(byColumn ? transposeMatrix(matrix) : matrix)));
  return byColumn && result instanceof Matrix ? transposeMatrix(result) : result;
}

interface Level {
  readonly keys: readonly Scalar[];
  readonly descending: boolean;
}

/** Numbers, then text, then FALSE and TRUE, then errors; blanks come last in either direction. */
const rank = (value: Scalar): number =>
  value === null
    ? 4
    : value instanceof ErrorValue
      ? 3
      : typeof value === "boolean"
        ? 2
        : typeof value === "string"
          ? 1
          : 0;

const errorOrder = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"];

/** Errors sort by their numbers (ERROR.TYPE). */
function rankError(value: Scalar): number {
  const place = value instanceof ErrorValue ? errorOrder.indexOf(value.code) : -1;
  return place >= 0 ? place : refuse("newer error values sorted");
}

/** The order of places that sorts by several keys; equal ones keep their order. */
function sortPlaces(levels: readonly Level[]): number[] {
  const places = Array.from({ length: levels[0]?.keys.length ?? 0 }, (_, place) => place);
  spend(5 * places.length * Math.ceil(Math.log2(places.length + 1)));
  return places.sort((a, b) => {
    for (const { keys, descending } of levels) {
      const one = keys[a] ?? null;
      const other = keys[b] ?? null;
      const ranks = rank(one) - rank(other);
      if (one === null || other === null) {
        if (ranks !== 0) return ranks;
        continue;
      }
      const difference =
        ranks !== 0 ? ranks : one instanceof ErrorValue ? rankError(one) - rankError(other) : order(one, other);
      if (difference !== 0) return descending ? -difference : difference;
    }
    return a - b;
  });
}

function filterMatrix(matrix: Matrix, include: Matrix, empty: (() => Value) | undefined): Value {
  const byRow = include.columns === 1 && include.rows === matrix.rows;
  const byColumn = !byRow && include.rows === 1 && include.columns === matrix.columns;
  if (!byRow && !byColumn) return errors.value;
  const wrong = include.values.find((value) => isError(value));
  if (wrong !== undefined) return wrong;
  if (include.values.some((value) => typeof value === "string")) return errors.value;
  const result = applyAlong(matrix, byColumn, (rows) => rows.filter((_, row) => Boolean(include.values[row])));
  return result instanceof Matrix ? result : (empty?.() ?? errors.calculation);
}

/** A key that two values share where UNIQUE takes them for one; numbers by the 15 digits that Excel compares. */
function buildUniqueKey(value: Scalar): string {
  if (typeof value === "number") return value.toPrecision(15);
  if (typeof value === "string") return `"${value.length}${value.toLowerCase()}`;
  return isError(value) ? value.code : String(value);
}

function collectDistinctRows(rows: readonly Scalar[][], once: boolean): Scalar[][] {
  const groups = new Map<string, { readonly row: Scalar[]; count: number }>();
  // The first number of each key behind the same values: another one differs by rounding error alone.
  const numbers = new Map<string, number>();
  for (const row of rows) {
    let key = "";
    for (const value of row) {
      key += `${buildUniqueKey(value)} `;
      if (typeof value !== "number") continue;
      const known = numbers.get(key);
      if (known === undefined) numbers.set(key, value);
      else if (known !== value) refuse("two numbers in UNIQUE that differ only by rounding error");
    }
    const group = groups.get(key);
    if (group) group.count += 1;
    else groups.set(key, { row, count: 1 });
  }
  return [...groups.values()].filter(({ count }) => !once || count === 1).map(({ row }) => row);
}

function buildSequence(rows: number, columns: number, start: number, step: number, caller: Caller): Value {
  const tall = toInteger(rows);
  const wide = toInteger(columns);
  if (tall < 0 || wide < 0) return errors.value;
  if (tall === 0 || wide === 0) return errors.calculation;
  if (tall * wide > largestArray) refuse(`${caller.name} of more than two million numbers`);
  const values = new Array<number>(tall * wide);
  for (let place = 0; place < values.length; place += 1) values[place] = start + place * step;
  return new Matrix(tall, wide, values);
}

/** Arrays turned, filtered, sorted and counted up. */
export const arrayFunctions: FunctionTable = {
  TRANSPOSE: takes(["array"], ([matrix], caller) =>
    caller.kind === "ordinary" && !matrix.constant && matrix.values.length > 1
      ? refuse("TRANSPOSE over a range in a cell that is no array formula")
      : transposeMatrix(matrix),
  ),
  SEQUENCE: {
    ...takes(["number??", "number??", "number??", "number??"], ([rows = 1, columns = 1, start = 1, step = 1], caller) =>
      buildSequence(rows, columns, start, step, caller),
    ),
    least: 1,
  },
  FILTER: takes(["array", "array", "lazy??"], ([matrix, include, empty]) =>
    filterMatrix(matrix, include, empty && (() => empty.value())),
  ),
  UNIQUE: takes(["array", "logical??", "logical??"], ([matrix, byColumn = false, once = false]) =>
    applyAlong(matrix, byColumn, (rows) => collectDistinctRows(rows, once)),
  ),
  SORT: takes(
    ["array", "number??", "number??", "logical??"],
    ([matrix, index = 1, direction = 1, byColumn = false]) => {
      const place = toInteger(index) - 1;
      if (place < 0 || place >= (byColumn ? matrix.rows : matrix.columns) || Math.abs(direction) !== 1)
        return errors.value;
      return applyAlong(matrix, byColumn, (rows) =>
        sortPlaces([{ keys: rows.map((row) => row[place] ?? null), descending: direction < 0 }]).map(
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
    const rows = splitIntoRows(matrix);
    return buildFromRows(sortPlaces(levels).map((at) => rows[at] ?? []));
  }),
};

/** TAKE and DROP: rows or columns from the front, or with negative counts from the back. */
function cut(count: number | undefined, length: number, drop: boolean): readonly [number, number] | undefined {
  if (count === undefined) return [0, length];
  const size = Math.min(Math.abs(toInteger(count)), length);
  const fromBack = count < 0;
  const from = drop ? (fromBack ? 0 : size) : fromBack ? length - size : 0;
  const to = drop ? (fromBack ? length - size : length) : fromBack ? length : size;
  return to > from ? [from, to] : undefined;
}

const defineCut = (drop: boolean) =>
  takes(["array", "number??", "number??"], ([matrix, rows, columns]) => {
    const vertical = cut(rows, matrix.rows, drop);
    const horizontal = cut(columns, matrix.columns, drop);
    if (!vertical || !horizontal) return errors.calculation;
    return buildFromRows(
      splitIntoRows(matrix)
        .slice(...vertical)
        .map((row) => row.slice(...horizontal)),
    );
  });

const definePick = (byColumn: boolean) =>
  takesMany(["array"], ["array"], 2, ([matrix], picks, caller) => {
    const length = byColumn ? matrix.columns : matrix.rows;
    const places: number[] = [];
    if (picks.some(({ rows, columns }) => rows > 1 && columns > 1))
      return refuse(`${caller.name} by a block of numbers`);
    for (const pick of picks.flatMap(({ values }) => values)) {
      const number = toNumber(pick);
      if (isError(number)) return number;
      const place = toInteger(number);
      if (place === 0 || Math.abs(place) > length) return errors.value;
      places.push(place > 0 ? place - 1 : length + place);
    }
    boundArray(places.length, byColumn ? matrix.rows : matrix.columns);
    return applyAlong(matrix, byColumn, (rows) => places.map((place) => rows[place] ?? []));
  });

function stackMatrices(matrices: readonly Matrix[]): Value {
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

function wrapVector(matrix: Matrix, count: number, padding: Scalar, byColumn: boolean): Value {
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
  const result = buildFromRows(rows);
  return byColumn && result instanceof Matrix ? transposeMatrix(result) : result;
}

/** TOCOL and TOROW: all values in one column or row, without blanks (1), errors (2) or both (3). */
const defineFlattening = (asColumn: boolean) =>
  takes(["array", "number??", "logical??"], ([matrix, ignore = 0, byColumn = false]) => {
    const kind = toInteger(ignore);
    if (kind < 0 || kind > 3) return errors.value;
    const kept = (byColumn ? transposeMatrix(matrix) : matrix).values.filter(
      (value) => !((kind % 2 === 1 && value === null) || (kind >= 2 && isError(value))),
    );
    return buildFromRows(asColumn ? kept.map((value) => [value]) : [kept]);
  });

/** Arrays cut, picked from, stacked and wrapped. */
export const arrayPieces: FunctionTable = {
  TAKE: defineCut(false),
  DROP: defineCut(true),
  CHOOSECOLS: definePick(true),
  CHOOSEROWS: definePick(false),
  VSTACK: takesMany([], ["array"], 1, (_, matrices) => stackMatrices(matrices)),
  HSTACK: takesMany([], ["array"], 1, (_, matrices) => {
    const result = stackMatrices(matrices.map(transposeMatrix));
    return result instanceof Matrix ? transposeMatrix(result) : result;
  }),
  TOCOL: defineFlattening(true),
  TOROW: defineFlattening(false),
  EXPAND: takes(["array", "number??", "number??", "any?"], ([matrix, rows, columns, padding = errors.notAvailable]) => {
    const tall = rows === undefined ? matrix.rows : toInteger(rows);
    const wide = columns === undefined ? matrix.columns : toInteger(columns);
    if (tall < matrix.rows || wide < matrix.columns) return errors.value;
    if (tall * wide > largestArray) return refuse("EXPAND to more than two million values");
    return buildFromRows(
      Array.from({ length: tall }, (_, row) =>
        Array.from({ length: wide }, (__, column) =>
          row < matrix.rows && column < matrix.columns ? matrix.at(row, column) : padding,
        ),
      ),
    );
  }),
  WRAPROWS: takes(["array", "number", "any?"], ([matrix, count, padding = errors.notAvailable]) =>
    wrapVector(matrix, count, padding, false),
  ),
  WRAPCOLS: takes(["array", "number", "any?"], ([matrix, count, padding = errors.notAvailable]) =>
    wrapVector(matrix, count, padding, true),
  ),
};
