import { describe, expect, test } from "vitest";
import { analyzeBaselines } from "../../src/core";
import { freedom, gauge } from "./support/budgets";
import { expectAgreement } from "./support/compare";
import { baselineSets } from "./uncertainty-vectors/program/stored";

const FIFTEEN = "fifteen digits are given; a deviation of rows near 1 Pa keeps fourteen";

type SetMean = (typeof baselineSets)[number]["expected"]["before"];

describe.each(baselineSets)("baseline rows in fifty digits: $name", ({ before, after, expected }) => {
  const found = analyzeBaselines(before, after ?? undefined, gauge);

  test("correlation of neighbours, from both sets together", () => {
    expect(found.correlation === undefined).toBe(Math.max(before.length, after?.length ?? 0) < 6);
    if (expected.phi === 0) expect(found.correlation ?? 0).toBe(0);
    else expectAgreement(found.correlation ?? NaN, expected.phi, 1e-12, FIFTEEN);
  });

  test.each([
    ["before", found.before, expected.before],
    ["after", found.after, expected.after],
  ])("uncertainty of the mean and its degrees of freedom, %s", (_, mean, given: SetMean | null) => {
    expect(mean === undefined).toBe(given === null);
    if (!mean || !given) return;
    expectAgreement(mean.uncertainty, given.u, 1e-12, FIFTEEN);
    if (given.dof === "infinite") expect(mean.degreesOfFreedom).toBe(Infinity);
    else expectAgreement(mean.degreesOfFreedom, freedom(given.dof), 1e-12, FIFTEEN);
  });

  test("noise of a single row", () => {
    if (expected.pressure_uncertainty === null) expect(found.deviation).toBeUndefined();
    else expectAgreement(found.deviation ?? NaN, expected.pressure_uncertainty, 1e-12, FIFTEEN);
  });
});
