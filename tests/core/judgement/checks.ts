import { validityChecks, type CheckName, type Standard, type TestFacts } from "../../../src/core";
import { readings } from "../../authorities/support/leakage";

export const points = (...pressures: number[]) =>
  readings(
    pressures,
    pressures.map(() => 100),
  );

export const calm: TestFacts = {
  direction: "depressurization",
  baselineBefore: [0.5, -0.5],
  baselineAfter: [0.5, -0.5],
  points: points(20, 30, 40, 50, 60),
  count: 5,
  technique: "ordinary",
};

export const check = (name: CheckName, facts: Partial<TestFacts>, standard: Standard = "ISO 9972") =>
  validityChecks({ ...calm, ...facts }, standard).find((one) => one.name === name)!;
