import { MethodError } from "../../core/index";

export type CellResult = number | string;

/** Passes a result on, unless it is a number that is not finite: inside arrays a host would turn NaN and Infinity into 0 without a word. */
export function finite<Result extends CellResult>(result: Result): Result {
  if (typeof result === "number" && !Number.isFinite(result)) {
    throw new MethodError("invalid", "result", "the numbers are too large or too small to calculate with");
  }
  return result;
}

/** The same for a row of results. */
export function finiteRow(row: readonly CellResult[]): CellResult[] {
  return row.map(finite);
}
