import { describe, expect, test } from "vitest";
import { testResult } from "../../src/core";
import { testCase } from "./high-precision/cases";
import type { WrittenTest } from "./high-precision/chain";
import { computeTest } from "./high-precision/chain";
import type { Exact } from "./high-precision/decimal";
import { at } from "./high-precision/decimal";
import { Random } from "./high-precision/random";
import { expectAgreement, relativeDifference } from "./support/compare";
import { readings } from "./support/leakage";

const FIFTY = "the reference has fifty digits and takes each double at the value it holds";

function expectExact(actual: number | undefined, expected: Exact, tolerance = 1e-12): void {
  expectAgreement(actual ?? NaN, expected.toNumber(), tolerance, FIFTY);
}

function byCore(written: WrittenTest) {
  return testResult(
    {
      direction: written.direction,
      readings: readings(written.pressures, written.flows),
      baselineBefore: written.baselineBefore,
      baselineAfter: written.baselineAfter,
    },
    {
      temperature: { indoor: written.indoorTemperature, outdoor: written.outdoorTemperature },
      humidity: { indoor: written.indoorHumidity, outdoor: written.outdoorHumidity },
      barometricPressure: written.barometer,
    },
    {
      flowBasis: written.basis,
      calibrationDensity: written.calibrationDensity,
      pressureSign: "indoors minus outdoors",
      standard: written.standard,
      technique: "ordinary",
      confidence: written.confidence,
    },
    written,
  );
}

const seeds = Array.from({ length: 120 }, (_, index) => 5000 + index);

describe("random whole tests of one direction against fifty digits", () => {
  const cases = seeds.map((seed) => {
    const written = testCase(new Random(seed));
    return { written, actual: byCore(written), expected: computeTest(written) };
  });

  test("the cases hold every direction, flow basis and standard", () => {
    const kinds = new Set(cases.map(({ written }) => `${written.direction}, ${written.basis}, ${written.standard}`));
    expect(kinds.size).toBe(12);
  });

  test("densities, flow factor, induced pressures and flows", () => {
    for (const { actual, expected } of cases) {
      expectExact(actual.density.indoor, expected.indoorDensity);
      expectExact(actual.density.outdoor, expected.outdoorDensity);
      expectExact(actual.densityAtLeaks, expected.leakDensity);
      expectExact(actual.flowFactor, expected.flowFactor);
      for (const [index, point] of actual.points.entries()) {
        expectExact(point.pressure, at(expected.induced, index).abs());
        expectExact(point.flow, at(expected.flows, index));
      }
    }
  });

  test("n, C and C at reference conditions", () => {
    for (const { actual, expected } of cases) {
      expectExact(actual.exponent.value, expected.n.value);
      expectExact(actual.coefficient.value, expected.C.value);
      expectExact(actual.coefficientAtReference.value, expected.referenceCoefficient);
      expectExact(actual.fit.determination, expected.fit.r2);
    }
  });

  test("flow at 50 Pa and at the reference pressure, per volume and per area", () => {
    for (const { written, actual, expected } of cases) {
      expectExact(actual.at50.flow.value, expected.q50.value);
      expectExact(actual.at50.airChangeRate?.value, expected.q50.value.dividedBy(written.volume));
      const other = actual.at(written.referencePressure);
      expectExact(other.flow.value, expected.flowAtReference.value);
      expectExact(other.perEnvelopeArea?.value, expected.flowAtReference.value.dividedBy(written.envelopeArea));
      expectExact(other.perFloorArea?.value, expected.flowAtReference.value.dividedBy(written.floorArea));
    }
  });

  test("leakage areas by their three definitions", () => {
    for (const { actual, expected } of cases) {
      expectExact(1e4 * actual.leakageAreas["effective 4 Pa"].value, expected.areas.effective4);
      expectExact(1e4 * actual.leakageAreas["ISO 9972 10 Pa"].value, expected.areas.iso10);
      expectExact(1e4 * actual.leakageAreas["equivalent 10 Pa"].value, expected.areas.equivalent10);
    }
  });

  // Limits are differences of the scatter: with three readings on a line by chance it is small, so 1e-11.
  test("limits of n and C", () => {
    for (const { actual, expected } of cases) {
      expectExact(actual.coefficient.lower, expected.C.lower, 1e-11);
      expectExact(actual.coefficient.upper, expected.C.upper, 1e-11);
      expectExact(actual.exponent.upper, expected.n.upper, 1e-11);
      const width = (values: { lower: number; upper: number }) => values.upper - values.lower;
      const exactWidth = expected.n.upper.minus(expected.n.lower).toNumber();
      expect(relativeDifference(width(actual.exponent), exactWidth)).toBeLessThan(1e-9);
    }
  });

  test("limits of the flow at reference conditions, whose coefficient depends on n", () => {
    for (const { actual, expected } of cases) {
      expectExact(actual.at50.flow.upper, expected.q50.upper, 1e-11);
      expectExact(actual.at50.flow.lower, expected.q50.lower, 1e-11);
    }
  });
});
