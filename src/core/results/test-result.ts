import { densityOfBoth, type TestAir } from "../air/density";
import { airAtLeaks, type Direction, type InsideOutside } from "../direction";
import { requirePositive, whereSound } from "../errors";
import {
  coefficientWithLimits,
  eachLimit,
  exponentWithLimits,
  flowWithLimits,
  type LeakageFit,
  type Limits,
  type Technique,
} from "../leakage/curve";
import { fitLeakage } from "../leakage/fit";
import type { LeakageReading } from "../leakage/readings";
import { referenceConditions } from "../leakage/reference-conditions";
import { baselinePressure, zeroOfReadings, type Baseline, type BaselineTimes } from "../readings/baseline";
import { type FlowBasis, flowFactor } from "../readings/fan-flow";
import { inducedPressures, toIndoorsMinusOutdoors, type PressureSign } from "../readings/induced-pressure";
import type { Standard } from "../standards/profiles";
import { byDefinition, leakageAreaPerFlow, type LeakageAreaDefinition } from "./leakage-area";
import { type SpecificLeakages, specificLeakages, type TestedBuilding } from "./specific-leakage";

/** How the readings are to be read and reduced. */
export interface TestTerms {
  readonly flowBasis: FlowBasis;
  readonly calibrationDensity: number;
  readonly pressureSign: PressureSign;
  readonly standard: Standard;
  readonly technique: Technique;
  readonly confidence: number;
}

/** One direction of a test as it was read: pressures signed by `pressureSign`, flows in m³/h by `flowBasis`. */
export interface TestReadings {
  readonly direction: Direction;
  readonly readings: readonly LeakageReading[];
  /** Readings that do not count but are drawn. */
  readonly excluded?: readonly LeakageReading[];
  readonly baselineBefore: readonly number[];
  readonly baselineAfter?: readonly number[] | undefined;
  /** Where given, each reading's zero follows from its time; else it is the mean of the baselines. */
  readonly baselineTimes?: BaselineTimes | undefined;
}

/** The flow at one pressure and what it is per volume and per area. */
export interface FlowResult extends SpecificLeakages<Limits> {
  readonly pressure: number;
  readonly flow: Limits;
}

/** Every step of one direction, in the order in which they are computed. Limits cover only the scatter of the readings. */
export interface TestResult {
  readonly baseline: Baseline;
  /** What is taken from each reading, Pa, signed, indoors minus outdoors. */
  readonly zeros: readonly number[];
  readonly density: InsideOutside;
  readonly flowFactor: number;
  /** Induced pressures as magnitudes and flows through the envelope. */
  readonly points: readonly LeakageReading[];
  /** The same of the readings that do not count, where their pressure exceeds the baseline in the test's direction. */
  readonly excludedPoints: readonly LeakageReading[];
  readonly fit: LeakageFit;
  readonly exponent: Limits;
  readonly coefficient: Limits;
  readonly densityAtLeaks: number;
  readonly coefficientAtReference: Limits;
  readonly at50: FlowResult;
  /** m² */
  readonly leakageAreas: Record<LeakageAreaDefinition, Limits>;
  /** The results at another pressure, at reference conditions. */
  readonly at: (pressure: number) => FlowResult;
}

/**
 * One direction of a fan pressurization test, from raw readings to results at reference conditions: baseline, induced pressures, flow through the
 * envelope, leakage curve, reference conditions, flow at 50 Pa per volume and area, leakage areas.
 * Errors: those of its steps, each naming its argument and row.
 * Source: ISO 9972:2015 clauses 6 and 7; ASTM E779-19 where its reference conditions are chosen.
 */
export function testResult(test: TestReadings, air: TestAir, terms: TestTerms, building: TestedBuilding): TestResult {
  const { direction } = test;
  const { standard, confidence } = terms;
  const zero = baselinePressure(test.baselineBefore, test.baselineAfter);
  const density = densityOfBoth(air);
  const factor = flowFactor(terms.flowBasis, direction, density, terms.calibrationDensity);
  const zerosOf = (readings: readonly LeakageReading[]) => zeroOfReadings(zero, readings, test.baselineTimes);
  const pointsFrom = (readings: readonly LeakageReading[]) =>
    inducedPoints(readings, zerosOf(readings), test.direction, terms.pressureSign, factor);
  const points = pointsFrom(test.readings);
  const fit = fitLeakage(points, terms.technique);
  const conditions = referenceConditions(standard, direction, density, air.temperature);
  const flowAt = (pressure: number) => flowWithLimits(fit, pressure, confidence, conditions);
  const at = (pressure: number) => {
    const flow = flowAt(pressure);
    return { pressure, flow, ...specificLeakages(building, (perSize) => eachLimit(flow, perSize)) };
  };
  return {
    baseline: signedIndoors(zero, terms.pressureSign),
    zeros: zerosOf(test.readings).map((value) => toIndoorsMinusOutdoors(value, terms.pressureSign)),
    density,
    flowFactor: factor,
    points,
    // A reading may have been excluded because it contradicts its baseline or its direction; then it has no place on the graph.
    excludedPoints: (test.excluded ?? []).flatMap((reading) => whereSound(() => pointsFrom([reading])) ?? []),
    fit,
    exponent: exponentWithLimits(fit, confidence),
    coefficient: coefficientWithLimits(fit, confidence),
    densityAtLeaks: airAtLeaks(direction, density),
    coefficientAtReference: flowAt(1),
    at50: at(50),
    leakageAreas: byDefinition((its) => eachLimit(flowAt(its.pressure), (flow) => flow * leakageAreaPerFlow(its))),
    at,
  };
}

/**
 * Readings as they enter the leakage curve: induced pressures as magnitudes, flows through the envelope.
 * @param factor What the flow column is multiplied by; 1 leaves the flows as they were read, which changes C alone.
 */
export function inducedPoints(
  readings: readonly LeakageReading[],
  zeros: readonly number[],
  direction: Direction,
  sign: PressureSign,
  factor = 1,
): LeakageReading[] {
  const rows = readings.map(({ row, pressure }) => ({ row, value: pressure }));
  const induced = inducedPressures(rows, zeros, sign, direction, "pressures");
  return readings.map((reading, index): LeakageReading => {
    const { row, flow, flowUncertainty } = reading;
    requirePositive(flow, "flows", row);
    const point = { ...reading, pressure: Math.abs(induced[index]!.value), flow: flow * factor };
    return flowUncertainty === undefined ? point : { ...point, flowUncertainty: flowUncertainty * factor };
  });
}

function signedIndoors({ before, after, pressure }: Baseline, sign: PressureSign): Baseline {
  const turned = (value: number) => toIndoorsMinusOutdoors(value, sign);
  return { before: turned(before), pressure: turned(pressure), ...(after !== undefined && { after: turned(after) }) };
}
