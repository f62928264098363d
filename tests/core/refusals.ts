import { describe, expect, test } from "vitest";
import { MethodError } from "../../src/core";

/** Excel's limit for the help texts of functions; for errors none is published, so that none is longer. */
export const longestMessage = 255;

/** What an error says as data: "term, row 3: code", and what it knows of the input. */
type Case = readonly [problem: string, call: () => unknown, data?: object];

function errorOf(call: () => unknown): unknown {
  try {
    call();
  } catch (error) {
    return error;
  }
  return "a result, not an error";
}

/** Tests that each call is refused by the rule named, as an input that breaks it or as one that is not there yet. */
export function refuses(kind: "invalid" | "missing", cases: readonly Case[]): void {
  describe(`refused as ${kind}`, () => {
    test.each(cases.map(([problem, call, data]) => ({ problem, call, data })))(
      "$problem",
      ({ problem, call, data }) => {
        const error = errorOf(call);
        expect(error).toBeInstanceOf(MethodError);
        const { kind: found, term, code, place, data: known } = error as MethodError;
        const row = place.row === undefined ? "" : `, row ${place.row}`;
        expect(`${place.argument ?? term}${row}: ${code}`).toBe(problem);
        expect(found).toBe(kind);
        expect(known).toEqual(data);
      },
    );
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
