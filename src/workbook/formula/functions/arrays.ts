import type { Caller } from "../calls/caller";
import { isError, toInteger } from "../values/coerce";
import { takes, takesMany, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, Matrix, type Scalar, type Value } from "../values/value";
import { largestArray } from "../values/broadcast";
import { alongside, ofRows, rowsOfMatrix, transposed } from "./matrix-rows";
import { sortedOrder } from "./sorting";

function filtered(matrix: Matrix, include: Matrix, empty: (() => Value) | undefined): Value {
  const byRow = include.columns === 1 && include.rows === matrix.rows;
  const byColumn = !byRow && include.rows === 1 && include.columns === matrix.columns;
  if (!byRow && !byColumn) return errors.value;
  const wrong = include.values.find((value) => isError(value));
  if (wrong !== undefined) return wrong;
  if (include.values.some((value) => typeof value === "string")) return errors.value;
  const result = alongside(matrix, byColumn, (rows) => rows.filter((_, row) => Boolean(include.values[row])));
  return result instanceof Matrix ? result : (empty?.() ?? errors.calculation);
}

/** A key that two values share where UNIQUE takes them for one; numbers by the 15 digits that Excel compares. */
function keyOf(value: Scalar): string {
  if (typeof value === "number") return value.toPrecision(15);
  if (typeof value === "string") return `"${value.length}${value.toLowerCase()}`;
  return isError(value) ? value.code : String(value);
}

function distinct(rows: readonly Scalar[][], once: boolean): Scalar[][] {
  const groups = new Map<string, { readonly row: Scalar[]; count: number }>();
  // The first number of each key behind the same values: another one differs by rounding error alone.
  const numbers = new Map<string, number>();
  for (const row of rows) {
    let key = "";
    for (const value of row) {
      key += `${keyOf(value)} `;
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

function sequence(rows: number, columns: number, start: number, step: number, caller: Caller): Value {
  const tall = toInteger(rows);
  const wide = toInteger(columns);
  if (tall < 0 || wide < 0) return errors.value;
  if (tall === 0 || wide === 0) return errors.calculation;
  if (tall * wide > largestArray) refuse(`${caller.name} of more than two million numbers`);
  const values: number[] = [];
  for (let place = 0; place < tall * wide; place += 1) values.push(start + place * step);
  return new Matrix(tall, wide, values);
}

/** Arrays turned, filtered, sorted and counted up. */
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
    return ofRows(sortedOrder(levels).map((at) => rows[at] ?? []));
  }),
};
