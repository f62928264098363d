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
    ["result: aboveZero", () => enScore(stated(0, 0.03), sound), { got: 0 }],
    ["expanded uncertainty: aboveZero", () => enScore(stated(0.6, 0), sound), { got: 0 }],
    ["coverage factor: aboveZero", () => enScore(stated(0.6, 0.03, -2), sound), { got: -2 }],
    ["other result: aboveZero", () => enScore(sound, stated(-1, 0.03)), { got: -1 }],
    ["other expanded uncertainty: aboveZero", () => enScore(sound, stated(0.6, Infinity)), { got: Infinity }],
    ["other coverage factor: aboveZero", () => enScore(sound, stated(0.6, 0.03, 0)), { got: 0 }],
    ["common uncertainty: smallFraction", () => enScore(sound, sound, 2), { got: 2 }],
    [
      "other expanded uncertainty: belowCommonPart",
      () => enScore(sound, stated(0.6, 0.02), 0.02),
      { uncertainty: 0.02, common: 0.024 },
    ],
    ["common uncertainty: allCommon", () => enScore(stated(2, 0.5, 1), stated(1, 0.5, 2), 0.25)],
  ]);

  test("equal results agree, whatever both share", () => {
    expect(enScore(sound, sound)).toMatchObject({ en: 0, zeta: 0, agrees: true, signal: "acceptable" });
    expect(enScore(stated(0.5, 0.02, 1), stated(0.5, 0.02, 1), 0.04).en).toBe(0);
  });

  test("at 3 the signal is for action, a slack of 1e-9 included", () => {
    expect(enScore(stated(0.625 - 1e-12, 0.03), stated(0.55, 0.04)).signal).toBe("action signal");
  });
});
