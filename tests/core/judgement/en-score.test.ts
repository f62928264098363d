import { describe, expect, test } from "vitest";
import { enScore } from "../../../src/core";
import { refuses } from "../refusals";

const stated = (value: number, expandedUncertainty: number, coverageFactor = 2) => ({
  value,
  expandedUncertainty,
  coverageFactor,
});

describe("E_n and zeta", () => {
  const sound = stated(0.6, 0.03);
  refuses("invalid", [
    ["result: must be above 0 (got 0)", () => enScore(stated(0, 0.03), sound)],
    ["expanded_uncertainty: must be above 0 (got 0)", () => enScore(stated(0.6, 0), sound)],
    ["coverage_factor: must be above 0 (got -2)", () => enScore(stated(0.6, 0.03, -2), sound)],
    ["other_result: must be above 0 (got -1)", () => enScore(sound, stated(-1, 0.03))],
    ["other_expanded_uncertainty: must be above 0 (got Infinity)", () => enScore(sound, stated(0.6, Infinity))],
    ["other_coverage_factor: must be above 0 (got 0)", () => enScore(sound, stated(0.6, 0.03, 0))],
    ["common_uncertainty: a fraction, 0.02 for 2 % (got 2)", () => enScore(sound, sound, 2)],
    [
      "other_expanded_uncertainty: 0.02 is less than its common part, 0.024: give the whole uncertainty, the common part as a fraction",
      () => enScore(sound, stated(0.6, 0.02), 0.02),
    ],
    [
      "common_uncertainty: it is all of both uncertainties, so that no difference could be explained",
      () => enScore(stated(2, 0.5, 1), stated(1, 0.5, 2), 0.25),
    ],
  ]);

  test("equal results agree, whatever both share", () => {
    expect(enScore(sound, sound)).toMatchObject({ en: 0, zeta: 0, agrees: true, signal: "acceptable" });
    expect(enScore(stated(0.5, 0.02, 1), stated(0.5, 0.02, 1), 0.04).en).toBe(0);
  });

  test("at 3 the signal is for action, a slack of 1e-9 included", () => {
    expect(enScore(stated(0.625 - 1e-12, 0.03), stated(0.55, 0.04)).signal).toBe("action signal");
  });
});
