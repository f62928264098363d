/**
 * Thrown where a formula cannot be evaluated with certainty: the cell and everything that needs it is then listed as
 * "not evaluated" with this reason. It is never caught by IFERROR or its like: not knowing is not an error value.
 */
export class NotEvaluated extends Error {
  constructor(
    readonly reason: string,
    /** The address of the cell where the trouble began, for cells that only depend on it. */
    readonly origin?: string,
  ) {
    super(reason);
  }
}

/** Ends an evaluation with its reason. */
export function refuse(reason: string): never {
  throw new NotEvaluated(reason);
}

/** Thrown while a cell is evaluated and others, listed in the grid, must be evaluated first. One object: it carries nothing. */
export class Pending extends Error {
  static readonly signal = new Pending("other cells come first");
}
