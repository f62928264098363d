/**
 * The one error of the method. `kind` "invalid": the input breaks a rule; "missing": there is too little input so far, the form is
 * half filled. `row` is counted from 1 within the argument, as a person counts.
 */
export class MethodError extends Error {
  constructor(
    readonly kind: "invalid" | "missing",
    readonly argument: string,
    readonly rule: string,
    readonly row?: number,
  ) {
    super(row === undefined ? `${argument}: ${rule}` : `${argument}, row ${row}: ${rule}`);
    this.name = "MethodError";
  }
}

/** Throws "invalid" unless the condition holds; NaN fails every comparison, so it is refused too. A rule that must be composed is, only then. */
export function ensure(holds: boolean, argument: string, rule: string | (() => string), row?: number): asserts holds {
  if (!holds) throw new MethodError("invalid", argument, typeof rule === "string" ? rule : rule(), row);
}

/** A number as an error message shows it. */
function shown(value: number): string {
  return String(Number(value.toPrecision(6)));
}

/** Throws "invalid" unless the number is finite and within [lowest, highest]. */
export function requireWithin(value: number, lowest: number, highest: number, argument: string, rule: string): void {
  ensure(value >= lowest && value <= highest, argument, () => `${rule} (got ${shown(value)})`);
}

/** Throws "invalid" unless the number is zero or more and finite. */
export function requireNotNegative(value: number, argument: string, row?: number): void {
  ensure(value >= 0 && value < Infinity, argument, () => `must not be below 0 (got ${shown(value)})`, row);
}

/** Throws "invalid" unless the number is above zero and finite. */
export function requirePositive(value: number, argument: string, row?: number): void {
  ensure(value > 0 && value < Infinity, argument, () => `must be above 0 (got ${shown(value)})`, row);
}
