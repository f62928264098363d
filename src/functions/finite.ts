import { MethodError } from "../core/index";

export type CellResult = number | string;

/** Passes results on, unless a number is not finite: inside arrays a host would turn NaN and Infinity into 0 without a word. */
export function finite<Result extends CellResult | CellResult[]>(result: Result): Result {
  for (const value of Array.isArray(result) ? result : [result]) {
    if (typeof value === "number" && !Number.isFinite(value)) {
      throw new MethodError("invalid", "result", "the numbers are too large or too small to calculate with");
    }
  }
  return result;
}
