import { errors, Matrix, type Scalar, type Value } from "../values/value";

/** A matrix from rows; without any it is Excel's empty array, #CALC!. */
export function ofRows(rows: readonly (readonly Scalar[])[]): Value {
  const columns = rows[0]?.length ?? 0;
  return rows.length === 0 || columns === 0 ? errors.calculation : new Matrix(rows.length, columns, rows.flat());
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
  );

/** Works on rows, or on columns by turning the matrix round and back. */
export function alongside(
  matrix: Matrix,
  byColumn: boolean,
  work: (rows: Scalar[][]) => readonly (readonly Scalar[])[],
): Value {
  const result = ofRows(work(rowsOfMatrix(byColumn ? transposed(matrix) : matrix)));
  return byColumn && result instanceof Matrix ? transposed(result) : result;
}
