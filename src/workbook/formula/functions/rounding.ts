import { ErrorValue } from "../../model";
import type { Caller } from "../calls/function-entry";
import { toInteger } from "../values/coerce";
import { parseNumber } from "../values/number-text";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { measureSize, visitValues } from "./gather";

/**
 * Rounding of numbers as they are written in decimals: ROUND(1.005, 2) is 1.01, although the double nearest to 1.005 is below it.
 * Excel rounds by the 15 digits that it shows. Where those 15 digits and the double itself disagree and the double is not the
 * one nearest to the digits (a sum that missed its tie by rounding error), the cell is refused.
 */
type Direction = "nearest" | "up" | "down";

interface Decimal {
  readonly negative: boolean;
  readonly digits: string;
  /** The value is 0.digits × 10^exponent. */
  readonly exponent: number;
}

function splitDecimal(value: number, precision: number): Decimal {
  const [mantissa = "0", exponent = "0"] = Math.abs(value)
    .toExponential(precision - 1)
    .split("e");
  return { negative: value < 0, digits: mantissa.replace(".", ""), exponent: Number(exponent) + 1 };
}

/** A number rounded to a count of decimals (negative: to tens, hundreds) half away from zero, away from zero, or toward zero. */
export function roundDecimal(value: number, places: number, direction: Direction): number {
  if (value === 0 || places > 300 || (places >= 0 && Number.isInteger(value))) return value;
  const plain = roundPlainly(value, places, direction);
  if (plain !== undefined) return plain;
  const shown = roundDigits(splitDecimal(value, 15), places, direction);
  const exact = roundDigits(splitDecimal(value, 17), places, direction);
  if (shown !== exact && Number(value.toPrecision(15)) !== value) {
    refuse("a number to be rounded that misses the border between two results only by rounding error");
  }
  return shown;
}

/**
 * The result by plain arithmetic where the value is far from every border between two results, which is nearly always; a
 * whole number below 2^53 over an exact power of ten is the double nearest to the decimal.
 */
function roundPlainly(value: number, places: number, direction: Direction): number | undefined {
  if (places < 0 || places > 15) return undefined;
  const power = 10 ** places;
  const scaled = Math.abs(value) * power;
  const whole = Math.floor(scaled);
  const rest = scaled - whole;
  const margin = 1e-4;
  if (scaled > 1e11 || rest < margin || rest > 1 - margin || Math.abs(rest - 0.5) < margin) return undefined;
  const up = direction === "up" || (direction === "nearest" && rest > 0.5);
  const size = (whole + (up ? 1 : 0)) / power;
  return size === 0 ? 0 : value < 0 ? -size : size;
}

function roundDigits({ negative, digits, exponent }: Decimal, places: number, direction: Direction): number {
  const kept = exponent + places;
  const rest = kept <= 0 ? digits : digits.slice(kept);
  const anyRest = /[1-9]/.test(rest);
  const half = kept === 0 ? (digits[0] ?? "0") >= "5" : kept > 0 && (digits[kept] ?? "0") >= "5";
  const head = kept <= 0 ? "0" : digits.slice(0, kept).padEnd(kept, "0");
  const up = direction === "up" ? anyRest : direction === "nearest" && half;
  const whole = BigInt(head) + (up ? 1n : 0n);
  const size = Number(`${whole}e${-places}`);
  return size === 0 ? 0 : negative ? -size : size;
}

/** The largest integer not above a value; refused where rounding error decides. */
export function roundDown(value: number): number {
  if (Number.isInteger(value)) return value;
  const floor = Math.floor(value);
  const shown = Math.floor(Number(value.toPrecision(15)));
  return floor === shown ? floor : refuse("an integer part that rounding error decides");
}

/**
 * How many times a significance goes into a number, rounded down or up. Quotients are judged by their 15 digits where both
 * numbers are plain decimals, as in CEILING(0.3, 0.1) = 0.3; where that and the doubles disagree otherwise, it is refused.
 */
export function countMultiples(value: number, significance: number, direction: "down" | "up"): number {
  const quotient = value / significance;
  const cut = direction === "down" ? Math.floor : Math.ceil;
  const shown = Number(quotient.toPrecision(15));
  const times = cut(shown);
  if (times === cut(quotient)) return times;
  const isExact = times === shown && Number((times * significance).toPrecision(15)) === value;
  return isExact ? times : refuse("a multiple that rounding error decides");
}

/** Single arguments of functions from the former analysis add-in: numbers and numeric text, but no logical values. */
export function readPlainNumbers(given: readonly Exclude<Scalar, ErrorValue>[]): number[] | ErrorValue {
  const numbers: number[] = [];
  for (const value of given) {
    if (typeof value === "boolean") return errors.value;
    const number = value === null ? 0 : typeof value === "string" ? parseNumber(value) : value;
    if (number === undefined) return errors.value;
    numbers.push(number);
  }
  return numbers;
}

/**
 * Whole numbers of ranges and single values for GCD and LCM: logical values are #VALUE! even in ranges, negative numbers #NUM!.
 * A blank cell given by itself does not count, one in a range counts as 0 (GCD_LCM.xlsx, saved by Excel).
 */
export function collectIntegers(given: readonly Value[], caller: Caller): number[] | ErrorValue {
  const numbers: number[] = [];
  const add = (value: Exclude<Scalar, ErrorValue>): ErrorValue | undefined => {
    const plain = readPlainNumbers([value]);
    if (plain instanceof ErrorValue) return plain;
    const [number = 0] = plain;
    if (number < 0) return errors.number;
    numbers.push(toInteger(number));
    return undefined;
  };
  refuseDifferentErrors(given, caller);
  for (const value of given) {
    const problem =
      value instanceof Reference || value instanceof Matrix ? addAll(value, numbers, add, caller) : addOne(value, add);
    if (problem) return problem;
  }
  return numbers.length === 0 ? errors.value : numbers;
}

/** Which of several errors among its arguments a function shows is not certain. */
function refuseDifferentErrors(given: readonly Value[], caller: Caller): void {
  const codes = new Set<string>();
  const note = (error: ErrorValue): undefined => void codes.add(error.code);
  for (const value of given) {
    if (value instanceof Reference || value instanceof Matrix) visitValues(value, caller, () => undefined, note);
    else if (value instanceof ErrorValue) note(value);
  }
  if (codes.size > 1) refuse(`${caller.name} of two different errors`);
}

type Add = (value: Exclude<Scalar, ErrorValue>) => ErrorValue | undefined;

function addOne(value: Exclude<Value, Reference | Matrix>, add: Add): ErrorValue | undefined {
  if (value instanceof Omitted) return errors.notAvailable;
  if (value === null) refuse("a blank among the arguments");
  if (value instanceof Lambda) return errors.value;
  return value instanceof ErrorValue ? value : add(value);
}

function addAll(value: Reference | Matrix, numbers: number[], add: Add, caller: Caller): ErrorValue | undefined {
  const before = numbers.length;
  const problem = visitValues(value, caller, add);
  const size = measureSize(value);
  const hasBlank = size && numbers.length - before < size.rows * size.columns;
  if (problem || !hasBlank) return problem;
  if (value instanceof Matrix && !value.fromCells) refuse("a blank among the arguments");
  if (size.rows * size.columns > 1) numbers.push(0);
  return undefined;
}
