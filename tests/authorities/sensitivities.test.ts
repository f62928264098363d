import { describe, test } from "vitest";
import { densityOfBoth, readingSensitivities, referenceConditions } from "../../src/core";
import { expectAgreement } from "./support/compare";
import { air, computeDirection, directionOf } from "./support/vector-tests";
import vectors from "./uncertainty-vectors/vectors.json";

const DERIVED = "central differences in fifty digits; a sensitivity is a difference of terms of order 1 over Δp";

describe.each([
  ["ISO 9972", 0, vectors.sensitivities.iso[0]],
  ["ISO 9972", 1, vectors.sensitivities.iso[1]],
  ["ASTM E779", 0, vectors.sensitivities.e779[0]],
  ["ASTM E779", 1, vectors.sensitivities.e779[1]],
] as const)("sensitivities of a whole test's fit to its readings: %s, direction %d", (standard, index, expected) => {
  if (!expected) throw new Error("no values");
  const { fit, points } = computeDirection(index, standard);
  const sign = directionOf(index) === "pressurization" ? 1 : -1;
  const { pressureFactor } = referenceConditions(standard, directionOf(index), densityOfBoth(air), air.temperature);
  const along = readingSensitivities(fit, points);

  test.each([
    [50, expected.ln_q50],
    [10, expected.ln_q10],
    [4, expected.ln_q4],
  ])("flow at %d Pa", (pressure, { per_flow_log, per_pressure_Pa }) => {
    along(Math.log(pressure * pressureFactor)).forEach((row, reading) => {
      expectClose(row.flowToFlow, per_flow_log[reading]);
      expectClose((sign * row.flowToPressure) / points[reading]!.pressure, per_pressure_Pa[reading]);
    });
  });

  test("C at reference conditions: a shift of all pressures", () => {
    const shift = along(Math.log(pressureFactor)).reduce(
      (sum, { flowToPressure }, reading) => sum + (sign * flowToPressure) / points[reading]!.pressure,
      0,
    );
    expectClose(shift, expected.ln_C_L.common.mu);
  });

  test("exponent", () => {
    along(0).forEach((row, reading) => {
      expectClose(row.exponentToFlow, expected.n.per_flow_log[reading]);
      expectClose((sign * row.exponentToPressure) / points[reading]!.pressure, expected.n.per_pressure_Pa[reading]);
    });
  });
});

function expectClose(actual: number, expected: number | undefined): void {
  expectAgreement(actual, expected ?? NaN, 1e-10, DERIVED);
}
