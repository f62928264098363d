/**
 * Thrown if a formula cannot be evaluated with certainty: the cell and everything that needs it are then listed as
 * "not evaluated" with this reason. IFERROR and similar functions never catch it: not knowing is not an error value.
 */
export class NotEvaluated extends Error {
  constructor(
    readonly reason: string,
    /** The address of the cell where the problem originated, for cells that only depend on it. */
    readonly origin?: string,
    /** The reason without what it quotes, so that refusals of one kind can be counted together. */
    override readonly cause = reason,
  ) {
    super(reason);
  }
}

/** Ends an evaluation with its reason, and with its cause where the reason quotes something. */
export function refuse(reason: string, cause?: string): never {
  throw new NotEvaluated(reason, undefined, cause);
}

/** A thrown problem as a refusal. */
export function toRefusal(problem: unknown): NotEvaluated {
  if (problem instanceof NotEvaluated) return problem;
  const text = problem instanceof Error ? problem.message : String(problem);
  // The engine has no other name for it.
  if (problem instanceof RangeError && /call stack/.test(text))
    return new NotEvaluated("its names and functions are nested too deeply");
  return new NotEvaluated(`the evaluation failed: ${text}`);
}

/** Thrown while a cell is evaluated and others, listed in the grid, must be evaluated first. One object: it carries nothing. */
export class Pending extends Error {
  static readonly signal = new Pending("other cells come first");
}
