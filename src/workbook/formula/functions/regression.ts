import type { ErrorValue } from "../../model";
import type { Caller } from "../calls/caller";
import { isError } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, finite, Matrix, Omitted, type Scalar, type Value } from "../values/value";
import { spend } from "../values/work";
import { matrixOf } from "./gather";
import { leastSquares, type LinearFit } from "./least-squares";

/** Known values for a fit: y, and the columns of x. */
interface Known {
  readonly y: readonly number[];
  readonly columns: readonly (readonly number[])[];
  /** True where the variables of x stand in rows, under a row of y. */
  readonly inRows: boolean;
}

/** y and x as numbers; text, blanks or logical values among them are #VALUE!, unlike sizes #REF!. */
function known(givenY: Value, givenX: Value | undefined, caller: Caller): Known | ErrorValue {
  const y = matrixOf(givenY, caller);
  if (isError(y)) return y;
  const x = givenX === undefined || givenX instanceof Omitted ? undefined : matrixOf(givenX, caller);
  if (isError(x)) return x;
  // The blank cells below are no numbers.
  if (y.beyond || x?.beyond) return errors.value;
  for (const value of [...y.values, ...(x?.values ?? [])]) if (isError(value)) return value;
  if ([...y.values, ...(x?.values ?? [])].some((value) => typeof value !== "number")) return errors.value;
  const numbers = y.values as readonly number[];
  if (!x) return { y: numbers, columns: [numbers.map((_, place) => place + 1)], inRows: y.rows === 1 && y.columns > 1 };
  return arranged(numbers, y, x) ?? errors.reference;
}

function arranged(numbers: readonly number[], y: Matrix, x: Matrix): Known | undefined {
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

function fitted({ y, columns }: Known, constant: boolean): LinearFit {
  const freedom = y.length - columns.length - (constant ? 1 : 0);
  if (freedom < 0) refuse("a fit of more coefficients than values");
  return leastSquares(y, columns, constant) ?? refuse("a fit whose x columns depend on each other");
}

/** LINEST's table: slopes last column first, then the constant; with statistics five rows, filled up with #N/A. */
function table(fit: LinearFit, constant: boolean, statistics: boolean): Matrix {
  const width = fit.slopes.length + 1;
  const slopes = [...fit.slopes].reverse();
  const first: Scalar[] = [...slopes, constant ? fit.intercept : 0];
  if (!statistics) return new Matrix(1, width, first);
  const total = fit.regressionSquares + fit.residualSquares;
  const noise = fit.freedom > 0 ? Math.sqrt(fit.residualSquares / fit.freedom) : 0;
  const ratio =
    fit.freedom > 0
      ? finite(fit.regressionSquares / fit.slopes.length / (fit.residualSquares / fit.freedom))
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
function predicted(fit: LinearFit, given: Known, newX: Matrix | undefined, shape: Matrix): Matrix | ErrorValue {
  const at = (row: readonly number[]): number =>
    row.reduce((total, value, place) => total + value * (fit.slopes[place] ?? 0), fit.intercept);
  if (!newX) {
    const values = given.y.map((_, place) => at(given.columns.map((column) => column[place] ?? 0)));
    return new Matrix(shape.rows, shape.columns, values);
  }
  if (newX.values.some((value) => typeof value !== "number"))
    return newX.values.find((value) => isError(value)) ?? errors.value;
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

const logged = (given: Known): Known | ErrorValue =>
  given.y.some((value) => !(value > 0)) ? errors.number : { ...given, y: given.y.map(Math.log) };

const fitting = (inLogs: boolean) =>
  takes(["table", "table??", "logical??", "logical??"], ([y, x, constant = true, statistics = false], caller) => {
    const plain = known(y, x, caller);
    if (isError(plain)) return plain;
    const given = inLogs ? logged(plain) : plain;
    if (isError(given)) return given;
    const result = table(fitted(given, constant), constant, statistics);
    if (!inLogs) return result;
    return new Matrix(
      result.rows,
      result.columns,
      result.values.map((value, place) =>
        place < result.columns && typeof value === "number" ? finite(Math.exp(value)) : value,
      ),
    );
  });

const predicting = (inLogs: boolean) =>
  takes(["table", "table??", "table??", "logical??"], ([y, x, newX, constant = true], caller) => {
    const plain = known(y, x, caller);
    if (isError(plain)) return plain;
    const given = inLogs ? logged(plain) : plain;
    if (isError(given)) return given;
    const wanted = newX === undefined ? undefined : matrixOf(newX, caller);
    if (isError(wanted)) return wanted;
    const shape = matrixOf(y, caller);
    if (isError(shape)) return shape;
    const result = predicted(fitted(given, constant), given, wanted, shape);
    if (isError(result) || !inLogs) return result;
    return new Matrix(
      result.rows,
      result.columns,
      result.values.map((value) => (typeof value === "number" ? finite(Math.exp(value)) : value)),
    );
  });

/** Straight lines and exponentials through points. */
export const regression: FunctionTable = {
  LINEST: fitting(false),
  LOGEST: fitting(true),
  TREND: predicting(false),
  GROWTH: predicting(true),
};
