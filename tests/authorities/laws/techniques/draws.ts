import fc from "fast-check";
import { fitLeakage } from "../../../../src/core";
import type { LeakageFit, Technique } from "../../../../src/core";
import { uncertainReadings, type ReadingErrors } from "../../support/leakage";

export const ROUNDING = "the same line by another way; some 1e-16 a reading";

/** Readings of a leakage curve with scatter, and errors as a tester states them. */
export const tests = fc
  .record({
    pressures: fc.uniqueArray(fc.integer({ min: 80, max: 700 }), { minLength: 4, maxLength: 12 }),
    scatter: fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 12, maxLength: 12 }),
    errors: fc.array(fc.integer({ min: 3, max: 40 }), { minLength: 12, maxLength: 12 }),
    n: fc.integer({ min: 50, max: 100 }),
    coefficient: fc.integer({ min: 5, max: 900 }),
  })
  .map(({ pressures: tenths, scatter, errors, n, coefficient }) => {
    const pressures = tenths.map((value) => value / 10);
    const flows = pressures.map(
      (pressure, index) => coefficient * pressure ** (n / 100) * (1 + (scatter[index] ?? 0) / 2000),
    );
    return {
      pressures,
      flows,
      pressure: pressures.map((_, index) => (errors[index] ?? NaN) / 40),
      flow: flows.map((value, index) => (value * (errors[11 - index] ?? NaN)) / 2000),
    };
  });

export type Drawn = typeof tests extends fc.Arbitrary<infer Value> ? Value : never;

export function fit({ pressures, flows }: Drawn, technique: Technique, errors: ReadingErrors = {}): LeakageFit {
  return fitLeakage(uncertainReadings(pressures, flows, errors), technique);
}
