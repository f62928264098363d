import { densityOfBoth, referenceDensity, type TestAir } from "../air/density";
import { airViscosity, referenceViscosity } from "../air/viscosity";
import { airAtLeaks, type Direction, signOf } from "../direction";
import { ensure } from "../errors";
import type { LeakageFit, Technique } from "../leakage/curve";
import { fitLeakage } from "../leakage/fit";
import type { LeakageReading } from "../leakage/readings";
import { correctsViscosity, type Standard } from "../leakage/reference-conditions";
import { readingSensitivities, type ReadingSensitivity } from "../leakage/sensitivities";
import { randomScale, type RandomScale, type ReadingNoise } from "./random-scale";

/**
 * Where an error acts in the model of a test. Each is one independent variable of mean 0; errors of several sources that act in the same place add up.
 * Relative (a fraction): gaugeGain, fanGain, flowGain, openingGain, size. Pa: offset (of every reading, not of the baseline), baseline, baselineBefore,
 * baselineAfter, drift (over the time from the baseline before to the one after), fanZero, barometer. openingExponent: of the opening's m about the pivot of its calibration.
 * expectedExponent: of the exponent that a technique expects of houses. extrapolation: a bend dn/d ln Δp of the true curve, which acts beyond the readings only.
 */
const effects = [
  "gaugeGain",
  "bothGaugeGains",
  "offset",
  "baseline",
  "baselineBefore",
  "baselineAfter",
  "drift",
  "fanGain",
  "fanZero",
  "flowGain",
  "indoorTemperature",
  "outdoorTemperature",
  "barometer",
  "indoorHumidity",
  "outdoorHumidity",
  "size",
  "extrapolation",
  "expectedExponent",
  "openingGain",
  "openingExponent",
] as const;

export type Effect = (typeof effects)[number];

/** One row of a budget before it is weighed. Correlation exists only because a row acts in several places, with a signed sensitivity in each. */
export interface Source {
  readonly symbol: string;
  readonly effect: Effect;
  /** The opening that it belongs to, counted from 0, where it acts only on readings through that opening. */
  readonly opening?: number;
  readonly law: "normal" | "rectangular";
  /** Standard uncertainty. */
  readonly uncertainty: number;
  /** Infinity where the uncertainty itself is taken as known. */
  readonly degreesOfFreedom: number;
}

/** A normal law, known well unless degrees of freedom are given. */
export function normal(symbol: string, effect: Effect, uncertainty: number, degreesOfFreedom = Infinity): Source {
  return { symbol, effect, law: "normal", uncertainty, degreesOfFreedom };
}

/** A rectangular law of a half-width: u = half-width/√3. Source: JCGM 100:2008, 4.3.7. */
export function rectangular(symbol: string, effect: Effect, halfWidth: number): Source {
  return { symbol, effect, law: "rectangular", uncertainty: halfWidth / Math.sqrt(3), degreesOfFreedom: Infinity };
}

/** The openings of a flow device are lettered, A the first. */
function letterOf(opening: number): string {
  return String.fromCharCode(65 + opening);
}

/** The same source for readings through one opening only. */
export function ofOpening(source: Source, opening: number): Source {
  return { ...source, symbol: `${source.symbol}_${letterOf(opening)}`, opening };
}

/** What a budget is made for. Flows, rates and areas differ only in factors that are exactly known, so that their relative uncertainty is that of ln q. */
export type Output =
  | { readonly of: "exponent" }
  /** C of the line as tested, before any reference conditions. */
  | { readonly of: "coefficient" }
  /** The flow at a pressure in Pa at reference conditions, or that flow per volume or area. C_L is that of the line at 1 Pa, where the curve itself need not be known. */
  | { readonly of: "flow"; readonly pressure: number; readonly perSize?: boolean; readonly ofLine?: boolean };

/** The exponent's uncertainty is absolute, every other one relative. */
export function isAbsolute(output: Output): boolean {
  return output.of === "exponent";
}

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
  /** f, Pa; absent where only the flow is known, so that an error of the fan gauge's zero cannot be evaluated. */
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
  /** readingSensitivities of this line, found when first asked for. */
  readonly sensitivitiesAt: (logPressure: number) => readonly ReadingSensitivity[];
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
    ensure(induced > 0, "pressures", "belowBaseline", { pressure: reading.pressure, baseline }, reading.row);
    return { ...reading, pressure: induced };
  });
  const fit = fitLeakage(points, test.technique);
  let found: ReturnType<typeof readingSensitivities> | undefined;
  return {
    ...test,
    side,
    points,
    fit,
    sensitivitiesAt: (logPressure) => (found ??= readingSensitivities(fit, points))(logPressure),
    random: randomScale(fit, points, test.noise),
    logDensity: Math.log(airAtLeaks(test.direction, densityOfBoth(test.air)) / referenceDensity),
    logViscosity: logViscosityAt(test.standard, airAtLeaks(test.direction, test.air.temperature)),
  };
}

/** Errors of a test by the place where they act: effects in their order, then those of each further opening, two by two. */
export type ModelErrors = Float64Array;

/** Places of the effects. */
export const place = Object.fromEntries(effects.map((effect, index) => [effect, index])) as Readonly<
  Record<Effect, number>
>;

/** Places for as many openings as there are letters. */
const size = effects.length + 2 * 25;

/** No error anywhere. */
export function noErrors(): ModelErrors {
  return new Float64Array(size);
}

/** Where a source acts. */
export function placeOf({ effect, opening = 0 }: Pick<Source, "effect" | "opening">): number {
  return place[effect] + 2 * opening;
}
