import { columnsOf, lastColumn, lastRow, rowsOf, type SheetArea } from "../../book/area";
import type { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { refuseWholeColumn } from "../calls/lifting";
import { boundArray } from "../values/broadcast";
import { isError } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { splitIntoRows, transposeMatrix } from "./arrays";
import { readMatrix } from "./gather";

/** One value of a LAMBDA's result; arrays inside arrays are #CALC!. */
function requireElement(value: Value, caller: Caller): Scalar {
  const scalars = value instanceof Reference ? caller.scalars(value) : value;
  if (scalars instanceof Matrix) return scalars.values.length === 1 ? scalars.at(0, 0) : errors.calculation;
  return scalars instanceof Lambda || scalars instanceof Omitted || scalars instanceof Reference
    ? errors.calculation
    : scalars;
}

/**
 * What a LAMBDA is given of an array, piece by piece: cells of a range are handed on as references, so that MAX leaves their
 * texts out and SUBTOTAL sees hidden rows.
 */
interface Pieces {
  readonly rows: number;
  readonly columns: number;
  cell(row: number, column: number): Value;
  row(row: number): Value;
  column(column: number): Value;
}

function cutIntoPieces(given: Value, caller: Caller): Pieces | ErrorValue {
  if (given instanceof Reference) {
    const { area } = given;
    if (!area) return refuse(`${caller.name} over several areas`);
    const [rows, columns] = [rowsOf(area), columnsOf(area)];
    if (rows > lastRow || columns > lastColumn) refuse(`a whole row or column inside ${caller.name}`);
    boundArray(rows, columns);
    const cut = (piece: Partial<SheetArea>): Reference => new Reference([{ ...area, ...piece }]);
    const down = (row: number) => ({ top: area.top + row, bottom: area.top + row });
    const across = (column: number) => ({ left: area.left + column, right: area.left + column });
    return {
      rows,
      columns,
      cell: (row, column) => cut({ ...down(row), ...across(column) }),
      row: (row) => cut(down(row)),
      column: (column) => cut(across(column)),
    };
  }
  const matrix = readMatrix(given, caller);
  if (isError(matrix) && !isError(given)) return matrix;
  const values = isError(matrix) ? new Matrix(1, 1, [matrix]) : matrix;
  refuseWholeColumn(caller, values);
  const { rows, columns } = values;
  return {
    rows,
    columns,
    cell: (row, column) => values.at(row, column),
    row: (row) => new Matrix(1, columns, splitIntoRows(values)[row] ?? []),
    column: (column) => new Matrix(rows, 1, splitIntoRows(transposeMatrix(values))[column] ?? []),
  };
}

/** A result for every piece, as a matrix. */
const collectResults = (rows: number, columns: number, compute: (row: number, column: number) => Scalar): Matrix =>
  new Matrix(
    rows,
    columns,
    Array.from({ length: rows * columns }, (_, place) => compute(Math.floor(place / columns), place % columns)),
  );

/** REDUCE and SCAN: every value in turn, row by row, with what came before. */
function accumulateValues(initial: Value, pieces: Pieces, lambda: Lambda, caller: Caller): Matrix | ErrorValue {
  if (lambda.parameters.length !== 2) return errors.value;
  let value: Value = initial;
  return collectResults(pieces.rows, pieces.columns, (row, column) => {
    const step = requireElement(lambda.call([value, pieces.cell(row, column)]), caller);
    value = step;
    return step;
  });
}

const startOf = (value: Value, caller: Caller): Value => {
  if (value instanceof Omitted) return refuse(`${caller.name} without a first value`);
  const scalars = value instanceof Reference ? caller.scalars(value) : value;
  return scalars instanceof Matrix ? refuse(`${caller.name} with an array as first value`) : scalars;
};

const defineAlong = (byColumn: boolean) =>
  takes(["table", "lambda"], ([given, lambda], caller) => {
    const pieces = cutIntoPieces(given, caller);
    if (isError(pieces)) return pieces;
    return byColumn
      ? collectResults(1, pieces.columns, (_, column) => requireElement(lambda.call([pieces.column(column)]), caller))
      : collectResults(pieces.rows, 1, (row) => requireElement(lambda.call([pieces.row(row)]), caller));
  });

/** Functions that take a LAMBDA. */
export const lambdaHelpers: FunctionTable = {
  MAKEARRAY: takes(["scalar", "scalar", "lambda"], ([rows, columns, lambda], caller) => {
    if (![rows, columns].every((count) => count === null || Number.isInteger(count)))
      return refuse("MAKEARRAY with a count that is no whole number");
    const [tall, wide] = [Number(rows), Number(columns)];
    if (tall < 1 || wide < 1 || lambda.parameters.length !== 2) return errors.value;
    if (tall * wide > 100_000) return refuse("MAKEARRAY of more than 100 000 values");
    return collectResults(tall, wide, (row, column) => requireElement(lambda.call([row + 1, column + 1]), caller));
  }),
  MAP: takesMany([], ["table"], 2, (_, rest, caller) => {
    const lambda = rest.at(-1);
    if (isError(lambda)) return lambda;
    if (!(lambda instanceof Lambda) || lambda.parameters.length !== rest.length - 1) return errors.value;
    const all: Pieces[] = [];
    for (const given of rest.slice(0, -1)) {
      const pieces = cutIntoPieces(given, caller);
      if (isError(pieces)) return pieces;
      all.push(pieces);
    }
    const [first] = all as [Pieces, ...Pieces[]];
    if (all.some(({ rows, columns }) => rows !== first.rows || columns !== first.columns))
      return refuse("MAP over arrays of unlike size");
    return collectResults(first.rows, first.columns, (row, column) =>
      requireElement(lambda.call(all.map((pieces) => pieces.cell(row, column))), caller),
    );
  }),
  BYROW: defineAlong(false),
  BYCOL: defineAlong(true),
  REDUCE: takes(["values", "table", "lambda"], ([initial, given, lambda], caller) => {
    const pieces = cutIntoPieces(given, caller);
    if (isError(pieces)) return pieces;
    const start = startOf(initial, caller);
    const steps = accumulateValues(start, pieces, lambda, caller);
    return isError(steps) ? steps : (steps.values.at(-1) ?? start);
  }),
  SCAN: takes(["values", "table", "lambda"], ([initial, given, lambda], caller) => {
    const pieces = cutIntoPieces(given, caller);
    return isError(pieces) ? pieces : accumulateValues(startOf(initial, caller), pieces, lambda, caller);
  }),
  ISOMITTED: takes(["values"], ([value]) => value instanceof Omitted),
};
