import { refuse } from "./refusal";
import { errors, Matrix, type Scalar } from "./value";
import { spend } from "../work-limits";

/** The most cells that one computed array may hold here; Excel's own limit is memory. */
export const largestArray = 2_000_000;

/** Refuses an array that is too large before it is made, and counts it. */
export function boundArray(rows: number, columns: number): void {
  if (rows * columns > largestArray) refuse("an array larger than two million values");
  spend(10 * rows * columns);
}

/**
 * Applies a function of scalars to every place of several arrays, as Excel broadcasts: a single value goes everywhere, one row
 * repeats down, one column repeats across, and what no array reaches is #N/A.
 */
export function broadcast(
  inputs: readonly (Scalar | Matrix)[],
  compute: (values: Scalar[]) => Scalar,
  /** Calls the function also where an array does not reach, with #N/A in its place: IF and IFERROR may not need it. */
  everywhere = false,
): Scalar | Matrix {
  const matrices = inputs.filter((input) => input instanceof Matrix);
  if (matrices.length === 0) return compute(inputs as Scalar[]);
  const rows = matrices.reduce((most, matrix) => Math.max(most, matrix.rows), 0);
  const columns = matrices.reduce((most, matrix) => Math.max(most, matrix.columns), 0);
  if (rows * columns > largestArray) refuse("an array larger than two million values");
  spend(10 * rows * columns);
  const results: Scalar[] = new Array<Scalar>(rows * columns);
  const values: Scalar[] = new Array<Scalar>(inputs.length);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      let reached = true;
      for (let place = 0; place < inputs.length; place += 1) {
        const input = inputs[place] as Scalar | Matrix;
        if (input instanceof Matrix) {
          const inRow = input.rows === 1 ? 0 : row;
          const inColumn = input.columns === 1 ? 0 : column;
          const inside = inRow < input.rows && inColumn < input.columns;
          reached &&= inside;
          values[place] = inside ? input.at(inRow, inColumn) : errors.notAvailable;
        } else values[place] = input;
      }
      results[row * columns + column] = reached || everywhere ? compute(values) : errors.notAvailable;
    }
  }
  const constant = matrices.every((matrix) => matrix.constant);
  return new Matrix(rows, columns, results, constant, computeBeyond(inputs, matrices, compute));
}

/** The value in the unused rows of a whole-column calculation. */
function computeBeyond(
  inputs: readonly (Scalar | Matrix)[],
  matrices: readonly Matrix[],
  compute: (values: Scalar[]) => Scalar,
): Matrix["beyond"] {
  const long = matrices.filter((matrix) => matrix.beyond);
  const first = long[0];
  if (!first?.beyond) return undefined;
  const alike = matrices.every((matrix) =>
    matrix.beyond
      ? matrix.rows === first.rows && matrix.beyond.rows === first.beyond?.rows
      : matrix.rows * matrix.columns === 1,
  );
  if (!alike) refuse("a whole column calculated with an array of another height");
  const values = inputs.map((input) =>
    input instanceof Matrix ? (input.beyond ? input.beyond.value : input.at(0, 0)) : input,
  );
  return { rows: first.beyond.rows, value: compute(values) };
}
