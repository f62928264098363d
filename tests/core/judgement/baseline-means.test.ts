import { describe, expect, test } from "vitest";
import { type TestFacts } from "../../../src/core";
import { check } from "./checks";

describe("means of the baseline", () => {
  test("each side is averaged by itself; a side without readings is 0", () => {
    const facts = { baselineBefore: [1, 2, -4], baselineAfter: [-1, -3] };
    expect(check("dp01+", facts).measured).toBe(1.5);
    expect(check("dp01-", facts).measured).toBe(-4);
    expect(check("dp02+", facts).measured).toBe(0);
    expect(check("dp02-", facts)).toMatchObject({ measured: -2, outcome: "met" });
  });

  test("one value may be an average: it can break a limit, but not show that it is kept", () => {
    expect(check("dp01+", { baselineBefore: [3] })).toMatchObject({ measured: 3, outcome: "cannot be judged" });
    expect(check("dp01+", { baselineBefore: [6] })).toMatchObject({ measured: 6, outcome: "not met" });
    expect(check("dp01-", { baselineBefore: [6] })).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
    expect(check("dp01+", { baselineBefore: [] })).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
  });

  test("a reading of 0 lies on neither side", () => {
    expect(check("dp01+", { baselineBefore: [0, 4] }).measured).toBe(4);
    expect(check("dp01-", { baselineBefore: [0, 4] }).measured).toBe(0);
  });

  test("in % of the lowest pressure: the largest of the four means; partial where one is not known", () => {
    const of = (facts: Partial<TestFacts>) => check("dp0_of_min", facts);
    expect(of({ baselineBefore: [-3, -3], baselineAfter: [1, 1] })).toMatchObject({ measured: 15, outcome: "met" });
    expect(of({ baselineBefore: [-5, -5], baselineAfter: [1, 1] })).toMatchObject({ measured: 25, outcome: "not met" });
    // One value before the test, none after: what is known can break the limit only.
    expect(of({ baselineBefore: [3], baselineAfter: [1, 1] })).toMatchObject({
      measured: 15,
      outcome: "cannot be judged",
    });
    expect(of({ baselineBefore: [-3, -3], baselineAfter: undefined })).toMatchObject({
      measured: 15,
      outcome: "cannot be judged",
    });
    expect(of({ baselineBefore: [-5, -5], baselineAfter: undefined })).toMatchObject({
      measured: 25,
      outcome: "not met",
    });
    expect(of({ points: [] })).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
    expect(of({ baselineBefore: [], baselineAfter: undefined })).toMatchObject({ measured: undefined });
  });

  test("the largest single reading in % of the lowest pressure (US Army Corps), by the same rule", () => {
    const of = (facts: Partial<TestFacts>) => check("reading_of_min", facts, "US Army Corps");
    expect(of({ baselineBefore: [1, -4], baselineAfter: [2, 3] })).toMatchObject({ measured: 20, outcome: "met" });
    expect(of({ baselineBefore: [1, -7], baselineAfter: [2, 3] })).toMatchObject({ measured: 35, outcome: "not met" });
    for (const partly of [
      { baselineBefore: [1, -4], baselineAfter: undefined },
      { baselineBefore: [-4], baselineAfter: [2, 3] },
      { baselineBefore: [1, -4], baselineAfter: [3] },
    ]) {
      expect(of(partly)).toMatchObject({ measured: 20, outcome: "cannot be judged" });
    }
    expect(of({ baselineBefore: [-7], baselineAfter: undefined })).toMatchObject({ measured: 35, outcome: "not met" });
    expect(of({ baselineBefore: [], baselineAfter: undefined }).measured).toBeUndefined();
    expect(of({ points: [] }).measured).toBeUndefined();
  });

  test("how many baseline readings: the smaller of the two sets; with one set only it may still be too few", () => {
    const of = (before: number, after?: number) =>
      check(
        "count_dp0",
        {
          baselineBefore: Array<number>(before).fill(1),
          baselineAfter: after === undefined ? undefined : Array<number>(after).fill(1),
        },
        "US Army Corps",
      );
    expect(of(12, 14)).toMatchObject({ measured: 12, outcome: "met" });
    expect(of(14, 11)).toMatchObject({ measured: 11, outcome: "not met" });
    expect(of(12)).toMatchObject({ measured: 12, outcome: "cannot be judged" });
    expect(of(11)).toMatchObject({ measured: 11, outcome: "not met" });
    expect(of(0)).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
  });
});
