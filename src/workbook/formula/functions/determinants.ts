import type { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes } from "../calls/function-entry";
import { isError } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Matrix } from "../values/value";
import { spend } from "../work-limits";

type Rows = number[][];

/** A square of numbers; anything else is #VALUE!. */
function readSquare(matrix: Matrix): Rows | ErrorValue {
  const wrong = matrix.values.find((value) => isError(value));
  if (wrong !== undefined && isError(wrong)) return wrong;
  if (matrix.rows !== matrix.columns || matrix.values.some((value) => typeof value !== "number")) return errors.value;
  spend(matrix.rows ** 3);
  return Array.from({ length: matrix.rows }, (_, row) =>
    Array.from({ length: matrix.columns }, (__, column) => matrix.at(row, column) as number),
  );
}

/** What is left after elimination with row exchanges: the determinant, and the inverse unless that is 0. */
function eliminate(square: Rows): { readonly determinant: number; readonly inverse: Rows | undefined } {
  const size = square.length;
  const rows = square.map((row, place) => [...row, ...row.map((_, column) => (column === place ? 1 : 0))]);
  let determinant = 1;
  for (let step = 0; step < size; step += 1) {
    let best = step;
    for (let row = step; row < size; row += 1)
      if (Math.abs(rows[row]?.[step] ?? 0) > Math.abs(rows[best]?.[step] ?? 0)) best = row;
    const pivotRow = rows[best] as number[];
    const pivot = pivotRow[step] as number;
    if (pivot === 0) return { determinant: 0, inverse: undefined };
    if (best !== step) determinant = -determinant;
    rows[best] = rows[step] as number[];
    rows[step] = pivotRow;
    determinant *= pivot;
    for (let column = 0; column < 2 * size; column += 1) pivotRow[column] = (pivotRow[column] as number) / pivot;
    for (const [place, row] of rows.entries()) {
      const factor = row[step] as number;
      if (place === step || factor === 0) continue;
      for (let column = 0; column < 2 * size; column += 1)
        row[column] = (row[column] as number) - factor * (pivotRow[column] as number);
    }
  }
  return { determinant, inverse: rows.map((row) => row.slice(size)) };
}

const largest = (rows: Rows): number => rows.flat().reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** Rounding errors grow with the sizes of a matrix and its inverse; where they reach the ninth digit, nothing is certain. */
function refuseNearlySingular(square: Rows, inverse: Rows, caller: Caller): void {
  const loss = largest(square) * largest(inverse) * square.length;
  if (!(loss < 1e6)) refuse(`${caller.name} of a matrix that is nearly singular`);
  const { current } = caller.grid.notes;
  if (current) current.tolerance = Math.max(current.tolerance, 1e-15 * loss);
}

/** Determinants and inverses of square matrices. */
export const determinants: FunctionTable = {
  MDETERM: takes(["array"], ([matrix], caller) => {
    const square = readSquare(matrix);
    if (isError(square)) return square;
    const { determinant, inverse } = eliminate(square);
    // Of numbers that are not exactly singular after rounding Excel gives some small number or 0.
    if (!inverse) return largest(square) === 0 || square.length < 3 ? 0 : refuse("MDETERM of a singular matrix");
    refuseNearlySingular(square, inverse, caller);
    return determinant;
  }),
  MINVERSE: takes(["array"], ([matrix], caller) => {
    const square = readSquare(matrix);
    if (isError(square)) return square;
    const { inverse } = eliminate(square);
    if (!inverse) return errors.number;
    refuseNearlySingular(square, inverse, caller);
    return new Matrix(matrix.rows, matrix.columns, inverse.flat());
  }),
};
