import { ErrorValue } from "../../model";
import type { Caller } from "../calls/caller";
import { toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { numberOfText } from "../values/text-number";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { sizeOf, visitValues } from "./gather";

/** Single arguments of functions from the former analysis add-in: numbers and numeric text, but no logical values. */
export function plainNumbers(given: readonly Exclude<Scalar, ErrorValue>[]): number[] | ErrorValue {
  const numbers: number[] = [];
  for (const value of given) {
    if (typeof value === "boolean") return errors.value;
    const number = value === null ? 0 : typeof value === "string" ? numberOfText(value) : value;
    if (number === undefined) return errors.value;
    numbers.push(number);
  }
  return numbers;
}

/**
 * Whole numbers of ranges and single values for GCD and LCM: logical values are #VALUE! even in ranges, negative numbers #NUM!.
 * Blanks and empty places are refused: Excel treats them differently from place to place.
 */
export function integersOf(given: readonly Value[], caller: Caller): number[] | ErrorValue {
  const numbers: number[] = [];
  const add = (value: Exclude<Scalar, ErrorValue>): ErrorValue | undefined => {
    const plain = plainNumbers([value]);
    if (plain instanceof ErrorValue) return plain;
    const [number = 0] = plain;
    if (number < 0) return errors.number;
    numbers.push(toInteger(number));
    return undefined;
  };
  for (const value of given) {
    const problem =
      value instanceof Reference || value instanceof Matrix ? addAll(value, numbers, add, caller) : addOne(value, add);
    if (problem) return problem;
  }
  return numbers;
}

type Add = (value: Exclude<Scalar, ErrorValue>) => ErrorValue | undefined;

function addOne(value: Exclude<Value, Reference | Matrix>, add: Add): ErrorValue | undefined {
  if (value instanceof Omitted || value === null) refuse("an empty place among the arguments");
  if (value instanceof Lambda) return errors.value;
  return value instanceof ErrorValue ? value : add(value);
}

function addAll(
  value: Reference | Matrix,
  numbers: readonly number[],
  add: Add,
  caller: Caller,
): ErrorValue | undefined {
  const before = numbers.length;
  const problem = visitValues(value, caller, add);
  const size = sizeOf(value);
  if (!problem && size && numbers.length - before < size.rows * size.columns) refuse("a blank among the arguments");
  return problem;
}
