import type { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes } from "../calls/function-entry";
import { isError } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, requireFinite, Matrix, Omitted, type Scalar, type Value } from "../values/value";
import { spend } from "../work-limits";
import { readMatrix } from "./gather";

/** Known values for a fit: y, and the columns of x. */
interface Known {
  readonly y: readonly number[];
  readonly columns: readonly (readonly number[])[];
  /** True if the variables of x are in rows, under a row of y. */
  readonly inRows: boolean;
}

/** y and x as numbers; text, blanks or logical values among them are #VALUE!, unlike sizes #REF!. */
function readKnown(givenY: Value, givenX: Value | undefined, caller: Caller): Known | ErrorValue {
  const y = readMatrix(givenY, caller);
  if (isError(y)) return y;
  const x = givenX === undefined || givenX instanceof Omitted ? undefined : readMatrix(givenX, caller);
  if (isError(x)) return x;
  // The blank cells below are no numbers.
  if (y.beyond || x?.beyond) return errors.value;
  // Errors among them are #VALUE! too.
  if ([...y.values, ...(x?.values ?? [])].some((value) => typeof value !== "number")) return errors.value;
  const numbers = y.values as readonly number[];
  if (!x) return { y: numbers, columns: [numbers.map((_, place) => place + 1)], inRows: y.rows === 1 && y.columns > 1 };
  return arrangeKnown(numbers, y, x) ?? errors.reference;
}

function arrangeKnown(numbers: readonly number[], y: Matrix, x: Matrix): Known | undefined {
  // The columns are picked out one by one, and each is fitted beside all others.
  spend(10 * x.values.length * Math.max(1, x.values.length / Math.max(1, numbers.length)));
  const values = x.values as readonly number[];
  const inRows = y.rows === 1 && y.columns > 1;
  if (x.rows === y.rows && x.columns === y.columns) return { y: numbers, columns: [values], inRows };
  if (y.columns === 1 && x.rows === y.rows) {
    return {
      y: numbers,
      columns: Array.from({ length: x.columns }, (_, place) => values.filter((__, at) => at % x.columns === place)),
      inRows: false,
    };
  }
  if (y.rows === 1 && x.columns === y.columns) {
    return {
      y: numbers,
      columns: Array.from({ length: x.rows }, (_, row) => values.slice(row * x.columns, (row + 1) * x.columns)),
      inRows: true,
    };
  }
  return undefined;
}

function fitKnown({ y, columns }: Known, constant: boolean): LinearFit {
  const freedom = y.length - columns.length - (constant ? 1 : 0);
  if (freedom < 0) refuse("a fit of more coefficients than values");
  return fitLeastSquares(y, columns, constant) ?? refuse("a fit whose x columns depend on each other");
}

/** LINEST's table: slopes last column first, then the constant; with statistics five rows, filled up with #N/A. */
function buildTable(fit: LinearFit, constant: boolean, statistics: boolean): Matrix {
  const width = fit.slopes.length + 1;
  const slopes = [...fit.slopes].reverse();
  const first: Scalar[] = [...slopes, constant ? fit.intercept : 0];
  if (!statistics) return new Matrix(1, width, first);
  const total = fit.regressionSquares + fit.residualSquares;
  const noise = fit.freedom > 0 ? Math.sqrt(fit.residualSquares / fit.freedom) : 0;
  const ratio =
    fit.freedom > 0
      ? requireFinite(fit.regressionSquares / fit.slopes.length / (fit.residualSquares / fit.freedom))
      : errors.number;
  if (fit.residualSquares <= 1e-20 * total)
    refuse("statistics of a fit without residuals, which rounding error decides");
  const pad = Array<Scalar>(Math.max(0, width - 2)).fill(errors.notAvailable);
  return new Matrix(5, width, [
    ...first,
    ...[...fit.slopeErrors].reverse(),
    constant ? fit.interceptError : errors.notAvailable,
    fit.regressionSquares / total,
    noise,
    ...pad,
    ratio,
    fit.freedom,
    ...pad,
    fit.regressionSquares,
    fit.residualSquares,
    ...pad,
  ]);
}

/** TREND and GROWTH: the fit at the known x, or at new ones. */
function predictValues(fit: LinearFit, given: Known, newX: Matrix | undefined, shape: Matrix): Matrix | ErrorValue {
  const at = (row: readonly number[]): number =>
    row.reduce((total, value, place) => total + value * (fit.slopes[place] ?? 0), fit.intercept);
  if (!newX) {
    const values = given.y.map((_, place) => at(given.columns.map((column) => column[place] ?? 0)));
    return new Matrix(shape.rows, shape.columns, values);
  }
  if (newX.values.some((value) => typeof value !== "number")) return errors.value;
  const values = newX.values as readonly number[];
  if (given.columns.length === 1)
    return new Matrix(
      newX.rows,
      newX.columns,
      values.map((value) => at([value])),
    );
  if ((given.inRows ? newX.rows : newX.columns) !== given.columns.length) return errors.reference;
  const count = given.inRows ? newX.columns : newX.rows;
  const rows = Array.from({ length: count }, (_, row) =>
    at(given.columns.map((__, place) => (given.inRows ? newX.at(place, row) : newX.at(row, place)) as number)),
  );
  return given.inRows ? new Matrix(1, count, rows) : new Matrix(count, 1, rows);
}

const takeLogarithms = (given: Known): Known | ErrorValue =>
  given.y.some((value) => !(value > 0)) ? errors.number : { ...given, y: given.y.map(Math.log) };

const defineFit = (inLogs: boolean) =>
  takes(["table", "table??", "logical??", "logical??"], ([y, x, constant = true, statistics = false], caller) => {
    const plain = readKnown(y, x, caller);
    if (isError(plain)) return plain;
    const given = inLogs ? takeLogarithms(plain) : plain;
    if (isError(given)) return given;
    const result = buildTable(fitKnown(given, constant), constant, statistics);
    if (!inLogs) return result;
    return new Matrix(
      result.rows,
      result.columns,
      result.values.map((value, place) =>
        place < result.columns && typeof value === "number" ? requireFinite(Math.exp(value)) : value,
      ),
    );
  });

const definePrediction = (inLogs: boolean) =>
  takes(["table", "table??", "table??", "logical??"], ([y, x, newX, constant = true], caller) => {
    const plain = readKnown(y, x, caller);
    if (isError(plain)) return plain;
    const given = inLogs ? takeLogarithms(plain) : plain;
    if (isError(given)) return given;
    const wanted = newX === undefined ? undefined : readMatrix(newX, caller);
    if (isError(wanted)) return wanted;
    const shape = readMatrix(y, caller);
    if (isError(shape)) return shape;
    const result = predictValues(fitKnown(given, constant), given, wanted, shape);
    if (isError(result) || !inLogs) return result;
    return new Matrix(
      result.rows,
      result.columns,
      result.values.map((value) => (typeof value === "number" ? requireFinite(Math.exp(value)) : value)),
    );
  });

/** Straight lines and exponentials through points. */
export const regression: FunctionTable = {
  LINEST: defineFit(false),
  LOGEST: defineFit(true),
  TREND: definePrediction(false),
  GROWTH: definePrediction(true),
};

/** A fit y = Σ b·x (+ constant) with what LINEST reports of it. */
interface LinearFit {
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
 * Undefined if columns are linearly dependent: Excel then drops one by its own rules.
 */
export function fitLeastSquares(
  y: readonly number[],
  columns: readonly (readonly number[])[],
  constant: boolean,
): LinearFit | undefined {
  const findCentre = (values: readonly number[]): number =>
    constant ? values.reduce((total, value) => total + value, 0) / values.length : 0;
  const meanY = findCentre(y);
  const means = columns.map(findCentre);
  const target = y.map((value) => value - meanY);
  const work = columns.map((column, place) => column.map((value) => value - (means[place] ?? 0)));
  const sizes = work.map(measureLength);
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

const measureLength = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((total, value) => total + value * value, 0));

/** Reduces a column below its diagonal to zeros and transforms the others; false if nothing is left of it. */
function reflect(
  column: number[],
  place: number,
  others: readonly number[][],
  target: number[],
  least: number,
): boolean {
  const rest = column.slice(place);
  const size = measureLength(rest);
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
