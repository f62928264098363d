import { ErrorValue } from "../../model";
import type { Caller } from "../calls/function-entry";
import { toNumber } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { columnsOf, rowsOf, type SheetArea } from "../../book/area";
import { spend } from "../work-limits";

/**
 * The numbers that functions such as SUM and AVERAGE see: in ranges and arrays only numbers count, while a value given directly
 * is coerced (TRUE is 1, "5" is 5, other text is #VALUE!). The first error met is the result.
 */
export function collectNumbers(given: readonly Value[], caller: Caller): number[] | ErrorValue {
  const numbers: number[] = [];
  for (const value of given) {
    const problem = addNumbers(value, numbers, caller);
    if (problem) return problem;
  }
  return numbers;
}

function addNumbers(value: Value, numbers: number[], caller: Caller): ErrorValue | undefined {
  if (value instanceof Reference || value instanceof Matrix) {
    return visitValues(value, caller, (element) => {
      if (typeof element === "number") numbers.push(element);
      return undefined;
    });
  }
  const number = toNumber(readDirectScalar(value));
  if (number instanceof ErrorValue) return number;
  numbers.push(number);
  return undefined;
}

/** A directly given argument: an empty place counts as 0, a LAMBDA is no value. */
export function readDirectScalar(value: Exclude<Value, Reference | Matrix>): Scalar {
  if (value instanceof Omitted) return null;
  return value instanceof Lambda ? errors.value : value;
}

/** Functions for which a blank and a 0 are the same. */
const indifferent = new Set(["SUM", "SUMSQ"]);

/**
 * Visits the values in a range or array, row by row; blanks of cells are left out. The visitor, or an error met, ends it.
 * A blank inside a computed array is refused: Excel may count it as 0.
 */
export function visitValues(
  value: Reference | Matrix,
  caller: Caller,
  visitor: (value: Exclude<Scalar, null | ErrorValue>) => ErrorValue | undefined,
  errorsToo: (error: ErrorValue) => ErrorValue | undefined = (error) => error,
): ErrorValue | undefined {
  let problem: ErrorValue | undefined;
  const visit = (element: Scalar): boolean => {
    if (element === null) return false;
    problem = element instanceof ErrorValue ? errorsToo(element) : visitor(element);
    return problem !== undefined;
  };
  if (value instanceof Matrix) {
    spend(5 * value.values.length);
    for (const element of value.values) {
      if (element === null && !value.fromCells && !indifferent.has(caller.name))
        refuse(`a blank inside a computed array given to ${caller.name}`);
      if (visit(element)) break;
    }
    return problem;
  }
  for (const area of value.areas) {
    caller.grid.visit(area, visit);
    if (problem) refuseOtherError(area, problem, caller);
    if (problem) return problem;
  }
  return problem;
}

/** Of different errors in a block the first by rows need not be the first by columns, and which way Excel goes is not documented. */
function refuseOtherError(area: SheetArea, problem: ErrorValue, caller: Caller): void {
  if (area.top === area.bottom || area.left === area.right) return;
  let first: { readonly error: ErrorValue; readonly column: number } | undefined;
  caller.grid.visit(area, (value, _, column) => {
    if (value instanceof ErrorValue && (!first || column < first.column)) first = { error: value, column };
  });
  if (first && first.error.code !== problem.code)
    refuse("different errors in one block, of which it is not certain which one Excel shows");
}

/** N and T look at the first cell of a range; their result for an array of several values is not certain. */
export function readFirstValue(value: Value, caller: Caller): Scalar {
  if (value instanceof Matrix && value.values.length > 1) refuse(`${caller.name} of an array`);
  const area = value instanceof Reference ? value.area : undefined;
  const scalars = caller.scalars(area ? new Reference([{ ...area, bottom: area.top, right: area.left }]) : value);
  return scalars instanceof Matrix ? scalars.at(0, 0) : scalars;
}

/** A range, array or single value read into memory; a union is #VALUE!. */
export function readMatrix(value: Value, caller: Caller): Matrix | ErrorValue {
  const scalars = caller.scalars(value);
  if (scalars instanceof Matrix) return scalars;
  return scalars instanceof ErrorValue
    ? scalars
    : new Matrix(1, 1, [scalars], false, undefined, value instanceof Reference);
}

/** The rows and columns of a range or array, whole columns counted in full. */
export function measureSize(value: Value): { rows: number; columns: number } | undefined {
  if (value instanceof Matrix) return { rows: value.beyond?.rows ?? value.rows, columns: value.columns };
  if (!(value instanceof Reference)) return { rows: 1, columns: 1 };
  const { area } = value;
  return area && { rows: rowsOf(area), columns: columnsOf(area) };
}

/**
 * Pairs of numbers from two ranges of the same count, for SLOPE, CORREL and their like: a pair with text, a logical value or a
 * blank in either is left out; counts that differ are #N/A.
 */
export function collectPairs(first: Matrix, second: Matrix, caller: Caller): { x: number[]; y: number[] } | ErrorValue {
  const [wrong, ...others] = [...first.values, ...second.values].filter((value) => value instanceof ErrorValue);
  if (others.some(({ code }) => code !== wrong?.code)) refuse(`${caller.name} of two different errors`);
  // A misspelt name is told as such, before the counts that then differ.
  if (wrong) return wrong;
  if (first.values.length !== second.values.length) return errors.notAvailable;
  const x: number[] = [];
  const y: number[] = [];
  for (const [place, a] of first.values.entries()) {
    const b = second.values[place] ?? null;
    if ((a === null && !first.fromCells) || (b === null && !second.fromCells)) {
      refuse(`a blank inside a computed array given to ${caller.name}`);
    }
    if (typeof a === "number" && typeof b === "number") {
      x.push(a);
      y.push(b);
    }
  }
  return { x, y };
}
