import type { Exact } from "./decimal";
import { exact } from "./decimal";
import { airDensity, airViscosity } from "./air";
import type { Interval, OrdinaryFit } from "./leakage";
import { fitLeakage, limitsOfC, limitsOfN } from "./leakage";
import type { Baseline, Direction, FlowBasis } from "./readings";
import { baselinePressure, flowFactor, inducedPressures } from "./readings";
import type { ReferenceStandard } from "./results";
import {
  leakageArea,
  lnReferenceCoefficient,
  referenceCoefficient,
  referenceConditions,
  referenceFlow,
} from "./results";

/** One direction of a test as it was written down; SI, flows in m³/h, humidities as fractions, readings signed. */
export interface WrittenTest {
  readonly direction: Direction;
  readonly pressures: readonly number[];
  readonly flows: readonly number[];
  readonly baselineBefore: readonly number[];
  readonly baselineAfter: readonly number[];
  readonly basis: FlowBasis;
  readonly standard: ReferenceStandard;
  readonly confidence: number;
  readonly indoorTemperature: number;
  readonly outdoorTemperature: number;
  readonly barometer: number;
  readonly indoorHumidity: number;
  readonly outdoorHumidity: number;
  readonly calibrationDensity: number;
  readonly volume: number;
  readonly envelopeArea: number;
  readonly floorArea: number;
  readonly referencePressure: number;
}

interface ComputedTest {
  readonly baseline: Baseline;
  readonly induced: readonly Exact[];
  readonly indoorDensity: Exact;
  readonly outdoorDensity: Exact;
  readonly leakDensity: Exact;
  readonly flowFactor: Exact;
  readonly flows: readonly Exact[];
  readonly fit: OrdinaryFit;
  readonly n: Interval;
  readonly C: Interval;
  readonly referenceCoefficient: Exact;
  readonly referenceLimits: Interval;
  readonly q50: Interval;
  readonly flowAtReference: Interval;
  readonly areas: { readonly effective4: Exact; readonly iso10: Exact; readonly equivalent10: Exact };
}

/** The whole way from the readings of one direction to its results, by method §2 to §6, in fifty digits. */
export function computeTest(test: WrittenTest): ComputedTest {
  const barometer = exact(test.barometer);
  const indoorDensity = airDensity(exact(test.indoorTemperature), barometer, exact(test.indoorHumidity));
  const outdoorDensity = airDensity(exact(test.outdoorTemperature), barometer, exact(test.outdoorHumidity));
  const baseline = baselinePressure(test.baselineBefore, test.baselineAfter);
  const induced = inducedPressures(test.pressures, baseline.test);
  const factor = flowFactor(test.basis, test.direction, indoorDensity, outdoorDensity, exact(test.calibrationDensity));
  const flows = test.flows.map((flow) => exact(flow).times(factor));
  const magnitudes = induced.map((pressure) => pressure.abs());
  const fit = fitLeakage(magnitudes, flows, exact(test.confidence));

  const outdoorAirLeaksIn = test.direction === "depressurization";
  const leakDensity = outdoorAirLeaksIn ? outdoorDensity : indoorDensity;
  const leakTemperature = outdoorAirLeaksIn ? test.outdoorTemperature : test.indoorTemperature;
  const conditions = referenceConditions(test.standard, leakDensity, airViscosity(exact(leakTemperature)));
  const flowAt = (pressure: number) => referenceFlow(fit, conditions, exact(pressure));
  const [four, ten] = [flowAt(4).value, flowAt(10).value];
  return {
    baseline,
    induced,
    indoorDensity,
    outdoorDensity,
    leakDensity,
    flowFactor: factor,
    flows,
    fit,
    n: limitsOfN(fit),
    C: limitsOfC(fit),
    referenceCoefficient: lnReferenceCoefficient(fit.lnC, fit.n, conditions).exp(),
    referenceLimits: referenceCoefficient(fit, conditions),
    q50: flowAt(50),
    flowAtReference: flowAt(test.referencePressure),
    areas: {
      effective4: leakageArea(four, exact(4), exact(1)),
      iso10: leakageArea(ten, exact(10), exact(1)),
      equivalent10: leakageArea(ten, exact(10), exact("0.611")),
    },
  };
}
