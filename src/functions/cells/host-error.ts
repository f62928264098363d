import { MethodError } from "../../core/index";
import { describeError } from "./error-sentences";
import { invalid, problemOf, type Problem } from "./rule-codes";
import { shorten } from "./text";

/** The two errors whose message a cell shows. */
type CellErrorCode = "#VALUE!" | "#N/A";

/** Of the shape of CustomFunctions.Error, for hosts that are not Excel; these also get what the sentence says as data. */
class PlainCellError extends Error {
  constructor(
    readonly code: CellErrorCode,
    message: string,
    readonly problem: Problem | undefined,
  ) {
    super(message);
  }
}

/** An error that the host shows in a cell with its message: CustomFunctions.Error in Excel, the same shape elsewhere. */
function cellError(code: CellErrorCode, message: string, problem?: Problem): Error {
  if (typeof CustomFunctions === "undefined") return new PlainCellError(code, message, problem);
  const { invalidValue, notAvailable } = CustomFunctions.ErrorCode;
  return new CustomFunctions.Error(code === "#N/A" ? notAvailable : invalidValue, message) as unknown as Error;
}

/** The words of the method for a person at a cell: missing input is #N/A, so that a half-filled form shows no alarming errors; a broken rule is #VALUE!. */
export function toCellError(error: unknown): Error {
  if (error instanceof MethodError)
    return cellError(error.kind === "missing" ? "#N/A" : "#VALUE!", describeError(error), problemOf(error));
  return cellError("#VALUE!", `unexpected failure, please report it: ${shorten(String(error), 200)}`);
}

/**
 * Runs the body of a cell function; whatever it throws reaches the cell as an error with a message, and so does a number that is not finite. No cell shows
 * where in the code an error arose, and finding that out is most of what an error in each of many cells costs.
 */
export function inCell<Result>(body: () => Result): Result {
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = 0;
  try {
    const result = body();
    return finite(result);
  } catch (error) {
    throw toCellError(error);
  } finally {
    Error.stackTraceLimit = limit;
  }
}

export type CellResult = number | string;

/** Passes a result on, unless a number in it is not finite: inside arrays a host would turn NaN and Infinity into 0 silently. */
export function finite<Result>(result: Result): Result {
  if (Array.isArray(result)) result.forEach(finite);
  else if (typeof result === "number" && !Number.isFinite(result)) throw invalid("result", "tooLarge");
  return result;
}
