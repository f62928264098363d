import { type Caller, type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { splitIntoRows, transposeMatrix } from "./arrays";

/** One value of a LAMBDA's result; arrays inside arrays are #CALC!. */
function requireElement(value: Value, caller: Caller): Scalar {
  const scalars = value instanceof Reference ? caller.scalars(value) : value;
  if (scalars instanceof Matrix) return scalars.values.length === 1 ? scalars.at(0, 0) : errors.calculation;
  return scalars instanceof Lambda || scalars instanceof Omitted || scalars instanceof Reference
    ? errors.calculation
    : scalars;
}

const applyByRows = (matrix: Matrix, lambda: Lambda, caller: Caller): Matrix =>
  new Matrix(
    matrix.rows,
    1,
    splitIntoRows(matrix).map((row) => requireElement(lambda.call([new Matrix(1, row.length, row, false)]), caller)),
  );

/** REDUCE and SCAN: every value in turn, row by row, with what came before. */
function accumulateValues(initial: Value, matrix: Matrix, lambda: Lambda, caller: Caller): Scalar[] | undefined {
  if (lambda.parameters.length !== 2) return undefined;
  let value: Value = initial;
  return matrix.values.map((next) => {
    const step = requireElement(lambda.call([value, next]), caller);
    value = step;
    return step;
  });
}

const startOf = (value: Value, caller: Caller): Value => {
  if (value instanceof Omitted) return refuse(`${caller.name} without a first value`);
  const scalars = value instanceof Reference ? caller.scalars(value) : value;
  return scalars instanceof Matrix ? refuse(`${caller.name} with an array as first value`) : scalars;
};

/** Functions that take a LAMBDA. */
export const lambdaHelpers: FunctionTable = {
  MAKEARRAY: takes(["number", "number", "lambda"], ([rows, columns, lambda], caller) => {
    const tall = toInteger(rows);
    const wide = toInteger(columns);
    if (tall < 1 || wide < 1 || lambda.parameters.length !== 2) return errors.value;
    if (tall * wide > 100_000) return refuse("MAKEARRAY of more than 100 000 values");
    const values = Array.from({ length: tall * wide }, (_, place) =>
      requireElement(lambda.call([Math.floor(place / wide) + 1, (place % wide) + 1]), caller),
    );
    return new Matrix(tall, wide, values);
  }),
  MAP: takesMany(["array"], ["table"], 2, ([first], rest, caller) => {
    const lambda = rest.at(-1);
    if (isError(lambda)) return lambda;
    if (!(lambda instanceof Lambda) || lambda.parameters.length !== rest.length) return errors.value;
    const others = rest.slice(0, -1).map((value) => caller.scalars(value));
    const same = others.every(
      (other) => other instanceof Matrix && other.rows === first.rows && other.columns === first.columns,
    );
    if (!same && first.values.length > 1) return refuse("MAP over arrays of unlike size");
    const values = first.values.map((value, place) =>
      requireElement(
        lambda.call([
          value,
          ...others.map((other) => (other instanceof Matrix ? (other.values[place] ?? null) : other)),
        ]),
        caller,
      ),
    );
    return new Matrix(first.rows, first.columns, values);
  }),
  BYROW: takes(["array", "lambda"], ([matrix, lambda], caller) => applyByRows(matrix, lambda, caller)),
  BYCOL: takes(["array", "lambda"], ([matrix, lambda], caller) => {
    const columns = splitIntoRows(transposeMatrix(matrix));
    const values = columns.map((column) =>
      requireElement(lambda.call([new Matrix(column.length, 1, column, false)]), caller),
    );
    return new Matrix(1, columns.length, values);
  }),
  REDUCE: takes(["values", "array", "lambda"], ([initial, matrix, lambda], caller) => {
    const start = startOf(initial, caller);
    const steps = accumulateValues(start, matrix, lambda, caller);
    return steps ? (steps.at(-1) ?? start) : errors.value;
  }),
  SCAN: takes(["values", "array", "lambda"], ([initial, matrix, lambda], caller) => {
    const steps = accumulateValues(startOf(initial, caller), matrix, lambda, caller);
    return steps ? new Matrix(matrix.rows, matrix.columns, steps) : errors.value;
  }),
};
