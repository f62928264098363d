import { referenceDensity } from "../air/density";
import { densityOfBoth, type TestAir } from "../air/test-air";
import { airViscosity, referenceViscosity } from "../air/viscosity";
import { airAtLeaks, signOf, type Direction } from "../direction";
import { ensure } from "../errors";
import type { LeakageFit, Technique } from "../leakage/curve";
import { fitLeakage } from "../leakage/fit";
import type { LeakageReading } from "../leakage/readings";
import { correctsViscosity, type Standard } from "../leakage/reference-conditions";
import { randomScale, type RandomScale, type ReadingNoise } from "./random";

/** One reading with what the errors of its instruments act on: its pressure as read, Pa, signed, indoors minus outdoors, its flow through the envelope. */
export interface ModelReading extends LeakageReading {
  readonly fan: FanReading;
  /** Fraction of the time from the baseline before to the baseline after. */
  readonly time: number;
}

/** The channel of the flow device: q = c·f^m through one opening. */
export interface FanReading {
  /** Counted from 0. */
  readonly opening: number;
  /** m */
  readonly exponent: number;
  /** f, Pa; absent where only the flow is known, so that an error of the fan gauge's zero cannot be told. */
  readonly pressure?: number | undefined;
  /** ln(f/f*), f* the pivot of the opening's calibration, about which an error of m turns. */
  readonly logOverPivot: number;
}

/** One direction of a test. */
export interface ModelTest {
  readonly direction: Direction;
  readonly readings: readonly ModelReading[];
  /** Means of the baseline readings, Pa, signed, indoors minus outdoors. */
  readonly baselineBefore: number;
  readonly baselineAfter?: number | undefined;
  /** True where the times are known, so that the zero of a reading lies between the two baselines by its time; else it is their mean. */
  readonly zeroFollowsTime?: boolean;
  readonly air: TestAir;
  readonly standard: Standard;
  readonly technique: Technique;
  readonly noise: ReadingNoise;
}

/** A test with its line, once for all the budgets made of it. */
export interface PreparedTest extends ModelTest {
  /** −1 depressurization, +1 pressurization. */
  readonly side: 1 | -1;
  /** Induced pressures as magnitudes and flows through the envelope. */
  readonly points: readonly LeakageReading[];
  readonly fit: LeakageFit;
  readonly random: RandomScale;
  /** L = ln(ρ/ρ0) of the air through the leaks. */
  readonly logDensity: number;
  /** M = ln(μ/μ0) where the standard corrects for viscosity, else 0. */
  readonly logViscosity: number;
}

/** M of the air through the leaks at a temperature in °C. */
export function logViscosityAt(standard: Standard, temperature: number): number {
  return correctsViscosity[standard] ? Math.log(airViscosity(temperature) / referenceViscosity) : 0;
}

/** Weight of the baseline after in the zero of a reading. */
export function shareOfAfter(
  { baselineAfter, zeroFollowsTime }: Pick<ModelTest, "baselineAfter" | "zeroFollowsTime">,
  { time }: Pick<ModelReading, "time">,
): number {
  if (baselineAfter === undefined) return 0;
  return zeroFollowsTime === true ? time : 0.5;
}

/** The baseline that is taken from a reading: between that before and that after by its time, or their mean, or the only one. */
function zeroOf(test: ModelTest, reading: ModelReading): number {
  const { baselineBefore, baselineAfter = baselineBefore } = test;
  return baselineBefore + shareOfAfter(test, reading) * (baselineAfter - baselineBefore);
}

/** Errors: a reading that does not exceed the baseline, naming its row; those of the fit. */
export function prepare(test: ModelTest): PreparedTest {
  const side = signOf(test.direction);
  const points = test.readings.map((reading): LeakageReading => {
    const baseline = zeroOf(test, reading);
    const induced = side * (reading.pressure - baseline);
    const rule = () => `${reading.pressure} Pa does not exceed the baseline of ${baseline} Pa`;
    ensure(induced > 0, "pressures", rule, reading.row);
    return { ...reading, pressure: induced };
  });
  const fit = fitLeakage(points, test.technique);
  return {
    ...test,
    side,
    points,
    fit,
    random: randomScale(fit, points, test.noise),
    logDensity: Math.log(airAtLeaks(test.direction, densityOfBoth(test.air)) / referenceDensity),
    logViscosity: logViscosityAt(test.standard, airAtLeaks(test.direction, test.air.temperature)),
  };
}
