import { ensure } from "../errors";
import { atMost } from "./comparison";

/** Refuses a common relative uncertainty that is no fraction. */
export function requireCommonShare(common: number): void {
  ensure(common >= 0 && common < 1, "common_uncertainty", () => `a fraction, 0.02 for 2 % (got ${common})`);
}

/** What is left of an uncertainty without the part that two results share. Errors: below 0, or less than the common part in it. */
export function ownPart(uncertainty: number, commonPart: number, argument: string): number {
  ensure(uncertainty >= 0 && uncertainty < Infinity, argument, () => `must be 0 or more (got ${uncertainty})`);
  ensure(
    atMost(commonPart, uncertainty),
    argument,
    () =>
      `${uncertainty} is less than the common part in it, ${commonPart}: give the whole uncertainty here, the common one as a fraction`,
  );
  return Math.sqrt(Math.max(0, (uncertainty - commonPart) * (uncertainty + commonPart)));
}
