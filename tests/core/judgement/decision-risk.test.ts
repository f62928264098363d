import { describe, expect, test } from "vitest";
import { decisionRisk, type DecisionRule } from "../../../src/core";
import { refuses } from "../refusals";

const prior = { mean: 0.55, deviation: 0.1 };

describe("risks of a decision", () => {
  const risk = (result: number, u: number, limit: number, given: Partial<typeof prior> = {}) =>
    decisionRisk(result, u, limit, { rule: "plain", prior: { ...prior, ...given } });
  refuses("invalid", [
    ["result: aboveZero", () => risk(0, 0.01, 0.6), { got: 0 }],
    ["standard uncertainty: aboveZero", () => risk(0.5, 0, 0.6), { got: 0 }],
    ["target: aboveZero", () => risk(0.5, 0.01, -1), { got: -1 }],
    ["prior mean: aboveZero", () => risk(0.5, 0.01, 0.6, { mean: 0 }), { got: 0 }],
    ["prior deviation: aboveZero", () => risk(0.5, 0.01, 0.6, { deviation: -0.1 }), { got: -0.1 }],
    ["prior deviation: aboveZero", () => risk(0.5, 0.01, 0.6, { deviation: 1e-200 }), { got: 0 }],
    ["degrees of freedom: aboveZero", () => decisionRisk(0.5, 0.01, 0.6, { rule: "plain", degreesOfFreedom: -1 })],
  ]);

  test("each rule has its acceptance limit: the target, or the target over or times exp(U/y)", () => {
    const factor = Math.exp(1.959963984540054 * 0.05);
    const acceptance = (rule: DecisionRule) => decisionRisk(0.5, 0.025, 0.6, { rule }).acceptanceLimit;
    expect(acceptance("plain")).toBe(0.6);
    expect(acceptance("guarded acceptance")).toBeCloseTo(0.6 / factor, 12);
    expect(acceptance("guarded rejection")).toBeCloseTo(0.6 * factor, 12);
    const { lower, upper } = decisionRisk(0.5, 0.025, 0.6, { rule: "plain" });
    expect([lower, upper]).toEqual([expect.closeTo(0.5 / factor, 12), expect.closeTo(0.5 * factor, 12)]);
  });

  test.each(["plain", "guarded acceptance", "guarded rejection"] as const)(
    "%s: a result passes up to the acceptance limit and not beyond",
    (rule) => {
      const verdictOf = (result: number) =>
        decisionRisk(result, 0.05 * result, 0.6, { rule, degreesOfFreedom: 6 }).verdict;
      const { acceptanceLimit } = decisionRisk(0.5, 0.025, 0.6, { rule, degreesOfFreedom: 6 });
      expect(verdictOf(acceptanceLimit * (1 - 1e-7))).toBe("pass");
      expect(verdictOf(acceptanceLimit * (1 + 1e-7))).toBe(rule === "guarded acceptance" ? "not proven" : "fail");
    },
  );

  test("without a prior nothing is said of one", () => {
    expect(decisionRisk(0.5, 0.025, 0.6, { rule: "plain" }).withPrior).toBeUndefined();
  });

  test("the prior alone: a lognormal distribution of this mean and deviation", () => {
    // Its median is m/√(1 + (s/m)²).
    const median = 0.55 / Math.sqrt(1 + (0.1 / 0.55) ** 2);
    expect(risk(0.5, 0.01, median).withPrior!.priorMet).toBeCloseTo(0.5, 12);
  });
});
