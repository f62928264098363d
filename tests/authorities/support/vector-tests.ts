import type { TestResult, TestTerms } from "../../../src/core";
import { fanFlow, testResult } from "../../../src/core";
import vectors from "../uncertainty-vectors/vectors.json";
import { readings } from "./leakage";

const [budget] = vectors.budgets;
if (!budget) throw new Error("no budget");

/** The first whole test of the vectors: what was read, and what follows from it. */
const { inputs } = budget;
export const { expected } = budget;

export const air = {
  temperature: { indoor: inputs.indoor_temperature, outdoor: inputs.outdoor_temperature },
  humidity: { indoor: inputs.indoor_humidity, outdoor: inputs.outdoor_humidity },
  barometricPressure: inputs.barometer,
};

export function directionOf(index: number): "depressurization" | "pressurization" {
  return inputs.directions[index]?.direction === "depressurization" ? "depressurization" : "pressurization";
}

/** One direction of the whole test as the core computes it. */
export function computeDirection(index: number, standard: TestTerms["standard"]): TestResult {
  const test = inputs.directions[index];
  if (!test) throw new Error(`no direction ${index}`);
  const openings: Record<string, { coefficient: number; exponent: number }> = inputs.openings;
  const flows = test.fan_pressures.map((pressure, row) => {
    const opening = openings[test.opening[row] ?? ""];
    if (!opening) throw new Error(`no opening in row ${row + 1}`);
    return fanFlow(pressure, opening);
  });
  return testResult(
    {
      direction: directionOf(index),
      readings: readings(test.readings, flows),
      baselineBefore: test.baseline_before,
      ...(test.baseline_after && { baselineAfter: test.baseline_after }),
    },
    air,
    {
      flowBasis: "indicated at calibration density",
      calibrationDensity: inputs.calibration_density,
      pressureSign: "indoors minus outdoors",
      standard,
      technique: "ordinary",
      confidence: 0.95,
    },
    { volume: inputs.volume },
  );
}
