import { describe, expect, test } from "vitest";
import { MethodError } from "../../src/core";

/** Excel's limit for the help texts of functions; for errors none is published, so that none is longer. */
export const longestMessage = 255;

type Case = readonly [says: string, call: () => unknown];

function errorOf(call: () => unknown): unknown {
  try {
    call();
  } catch (error) {
    return error;
  }
  return "a result, not an error";
}

/** Tests that each call is refused with the very words that a person reads at the cell, as an input that breaks a rule or as one that is not there yet. */
export function refuses(kind: "invalid" | "missing", cases: readonly Case[]): void {
  describe(`refused as ${kind}`, () => {
    test.each(cases)("%s", (says, call) => {
      const error = errorOf(call);
      expect(error).toBeInstanceOf(MethodError);
      expect(error).toMatchObject({ kind, message: says });
      expect(says.length).toBeLessThanOrEqual(longestMessage);
    });
  });
}

/** Tests that the ends of a range still belong to it: each call gives numbers. */
export function takes(cases: readonly (readonly [end: string, call: () => unknown])[]): void {
  describe("taken", () => {
    test.each(cases)("%s", (_, call) => {
      const numbers = [call()].flatMap((result) => (typeof result === "object" ? Object.values(result ?? {}) : result));
      expect(numbers.filter((value) => typeof value === "number" && !Number.isFinite(value))).toEqual([]);
      expect(numbers.length).toBeGreaterThan(0);
    });
  });
}
