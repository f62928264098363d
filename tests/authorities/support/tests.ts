import type { TestResult, TestTerms } from "../../../src/core";
import { testResult } from "../../../src/core";
import { readings } from "./leakage";

/** Dry air of the reference conditions on both sides, flows already through the envelope: what is fitted is what was written down. */
const referenceAir = {
  temperature: { indoor: 20, outdoor: 20 },
  humidity: { indoor: 0, outdoor: 0 },
  barometricPressure: 101325,
};

export const plainTerms: TestTerms = {
  flowBasis: "through the envelope",
  calibrationDensity: 1.2041,
  pressureSign: "indoors minus outdoors",
  standard: "ISO 9972",
  technique: "ordinary",
  confidence: 0.95,
};

/** A depressurization test under reference conditions. */
export function depressurization(
  pressures: readonly number[],
  flows: readonly number[],
  baseline: readonly number[],
  volume: number,
  terms: Partial<TestTerms> = {},
): TestResult {
  const test = {
    direction: "depressurization" as const,
    readings: readings(pressures, flows),
    baselineBefore: baseline,
  };
  return testResult(test, referenceAir, { ...plainTerms, ...terms }, { volume });
}
