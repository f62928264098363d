/** A fit y = Σ b·x (+ constant) with what LINEST reports of it. */
export interface LinearFit {
  /** One a column of x, in the columns' order. */
  readonly slopes: readonly number[];
  readonly intercept: number;
  readonly slopeErrors: readonly number[];
  readonly interceptError: number;
  readonly freedom: number;
  readonly regressionSquares: number;
  readonly residualSquares: number;
}

/**
 * Ordinary least squares on centred columns by Householder reflections (Golub 1965), which square no condition number.
 * Undefined where columns depend on each other: Excel then drops one by rules of its own.
 */
export function leastSquares(
  y: readonly number[],
  columns: readonly (readonly number[])[],
  constant: boolean,
): LinearFit | undefined {
  const centre = (values: readonly number[]): number =>
    constant ? values.reduce((total, value) => total + value, 0) / values.length : 0;
  const meanY = centre(y);
  const means = columns.map(centre);
  const target = y.map((value) => value - meanY);
  const work = columns.map((column, place) => column.map((value) => value - (means[place] ?? 0)));
  const sizes = work.map(length);
  const totalSquares = target.reduce((total, value) => total + value * value, 0);
  for (const [place, column] of work.entries()) {
    if (!reflect(column, place, work.slice(place + 1), target, (sizes[place] ?? 0) * 1e-10)) return undefined;
  }
  const slopes = solveUpper(work, target);
  const residualSquares = target.slice(columns.length).reduce((total, value) => total + value * value, 0);
  const freedom = y.length - columns.length - (constant ? 1 : 0);
  const spread = freedom > 0 ? residualSquares / freedom : 0;
  const inverse = work.map((_, place) =>
    solveUpper(
      work,
      work.map((__, other) => (other === place ? 1 : 0)),
    ),
  );
  const slopeErrors = slopes.map((_, row) =>
    Math.sqrt(spread * inverse.reduce((total, column) => total + (column[row] ?? 0) ** 2, 0)),
  );
  const projected = inverse.map((column) => column.reduce((total, value, row) => total + value * (means[row] ?? 0), 0));
  return {
    slopes,
    intercept: slopes.reduce((rest, slope, place) => rest - slope * (means[place] ?? 0), meanY),
    slopeErrors,
    interceptError: constant
      ? Math.sqrt(spread * (1 / y.length + projected.reduce((total, value) => total + value * value, 0)))
      : 0,
    freedom,
    regressionSquares: Math.max(0, totalSquares - residualSquares),
    residualSquares,
  };
}

const length = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((total, value) => total + value * value, 0));

/** Turns a column below its place into zeros and takes the others along; false where nothing is left of it. */
function reflect(
  column: number[],
  place: number,
  others: readonly number[][],
  target: number[],
  least: number,
): boolean {
  const rest = column.slice(place);
  const size = length(rest);
  if (!(size > least)) return false;
  const head = rest[0] ?? 0;
  const diagonal = head > 0 ? -size : size;
  rest[0] = head - diagonal;
  const square = rest.reduce((total, value) => total + value * value, 0);
  for (const other of [column, ...others, target]) {
    const product = rest.reduce((total, value, row) => total + value * (other[place + row] ?? 0), 0);
    for (let row = 0; row < rest.length; row += 1)
      other[place + row] = (other[place + row] ?? 0) - ((2 * product) / square) * (rest[row] ?? 0);
  }
  column[place] = diagonal;
  return true;
}

/** Solves R b = t, where column k of R is work[k] down to row k. */
function solveUpper(work: readonly (readonly number[])[], target: readonly number[]): number[] {
  const solution = Array<number>(work.length).fill(0);
  for (let row = work.length - 1; row >= 0; row -= 1) {
    let value = target[row] ?? 0;
    for (let column = row + 1; column < work.length; column += 1)
      value -= (work[column]?.[row] ?? 0) * (solution[column] ?? 0);
    solution[row] = value / (work[row]?.[row] ?? 1);
  }
  return solution;
}
