import { describe, expect, test } from "vitest";
import { fitLeakage, MethodError, techniques } from "../../../../src/core";
import type { LeakageReading } from "../../../../src/core";
import { uncertainReadings, type ReadingErrors } from "../../support/leakage";

describe("what cannot be", () => {
  const readings = (errors: ReadingErrors): LeakageReading[] =>
    uncertainReadings([60, 45, 30, 15], [272, 215, 178, 101], errors);
  const given = { pressure: [0.5, 0.5, 0.5, 0.5], flow: [3, 3, 3, 3] };

  test.each([
    ["weighted", { pressure: given.pressure }, "missing", "flow uncertainty"],
    ["weighted organic correlation", { flow: given.flow }, "missing", "pressure uncertainty"],
    ["weighted organic correlation", { pressure: given.pressure }, "missing", "flow uncertainty"],
    ["weighted organic correlation", {}, "missing", "pressure uncertainty"],
    ["errors in both", {}, "missing", "pressure uncertainty"],
    ["errors in both", { pressure: given.pressure }, "missing", "flow uncertainty"],
    ["weighted", { flow: [3, 3, 0, 3] }, "invalid", "flow uncertainty"],
    ["weighted", { flow: [3, 3, -1, 3] }, "invalid", "flow uncertainty"],
    ["weighted", { flow: [3, 3, NaN, 3] }, "invalid", "flow uncertainty"],
    ["weighted organic correlation", { ...given, pressure: [1, 1, 0, 1] }, "invalid", "pressure uncertainty"],
    ["errors in both", { pressure: [1, 1, 0, 1], flow: [3, 3, 0, 3] }, "invalid", "flow uncertainty"],
    ["errors in both", { ...given, correlation: [0, 0, 1, 0] }, "invalid", "flow uncertainty"],
  ] as const)("%s with %o: %s, %s", (technique, errors, kind, term) => {
    expect(() => fitLeakage(readings(errors), technique)).toThrow(expect.objectContaining({ kind, term }));
  });

  test("an uncertainty for some readings only names the first row without", () => {
    const some = readings({ flow: [3, 3] });
    expect(() => fitLeakage(some, "weighted")).toThrow(
      expect.objectContaining({ term: "flow uncertainty", code: "noUncertaintyInRow", data: { row: 3 } }),
    );
  });

  test("a line that swings between two slopes for ever is refused, not guessed", () => {
    const readings = uncertainReadings([42.9, 42.1, 42, 40.6], [369, 353, 340.9, 351.3], {
      pressure: [2, 2, 0.1, 0.5],
      flow: [5, 20, 5, 5],
    });
    for (const technique of ["weighted", "errors in both"] as const) {
      expect(() => fitLeakage(readings, technique)).toThrow(
        expect.objectContaining({ code: "lineNotSettled", data: { steps: 200 } }),
      );
    }
  });

  test("hostile sizes end in an error or in finite numbers, never in NaN", () => {
    const sizes = [5e-324, 1e-300, 1e-150, 1, 1e150, 1e300];
    for (const technique of techniques) {
      for (const [u, v] of sizes.flatMap((a) => sizes.map((b) => [a, b] as const))) {
        const all = uncertainReadings(
          [60, 45, 30, 15],
          [272, 215, 178, 101].map((q) => q * v),
          {
            pressure: [u, u, 1, u],
            flow: [v, u, v, u],
          },
        );
        try {
          expect(Number.isFinite(fitLeakage(all, technique).exponent)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(MethodError);
        }
      }
    }
  });
});
