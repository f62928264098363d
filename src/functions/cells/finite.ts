import { MethodError } from "../../core/index";

export type CellResult = number | string;

/** Passes a result on, unless it is a number that is not finite: inside arrays a host would turn NaN and Infinity into 0 without a word. */
export function finite<Result>(result: Result): Result {
  if (typeof result === "number" && !Number.isFinite(result)) {
    throw new MethodError("invalid", "result", "numbers too large or small to calculate with");
  }
  return result;
}
