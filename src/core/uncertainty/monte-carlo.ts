import type { LeakageFit, Limits } from "../leakage/curve";
import { fitLeakage } from "../leakage/fit";
import type { LeakageReading } from "../leakage/readings";
import {
  logViscosityAt,
  type ModelErrors,
  noErrors,
  type Output,
  place,
  placeOf,
  type PreparedTest,
  shareOfAfter,
  type Source,
} from "./model";
import { extrapolationResponse, logDensityRatio, readingResponse } from "./response";

/** One direction of a simulated test. */
export interface SimulatedDirection {
  readonly test: PreparedTest;
  /** The sources that act in this direction alone. */
  readonly sources: readonly Source[];
}

interface Distribution {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly lower: number;
  readonly upper: number;
}

interface Simulation {
  /** Trials that could not be evaluated, because an induced pressure was no longer above 0. */
  readonly dropped: number;
  /** One an output; none where more than 0.1 % of the trials were dropped. */
  readonly distributions?: readonly Distribution[];
}

/** Draws one error a source and adds it where the source acts. */
function drawer(sources: readonly Source[], { uniform, normal }: RandomStream): (errors: ModelErrors) => void {
  const drawn = sources.map((source) => ({ ...source, place: placeOf(source) }));
  return (errors) => {
    for (const { law, uncertainty, place } of drawn) {
      errors[place]! += uncertainty * (law === "normal" ? normal() : Math.sqrt(3) * (2 * uniform() - 1));
    }
  };
}

/** Random errors of the readings of one direction. Where the scatter gives their size, the size is uncertain too and is drawn from its χ². */
function drawReadings({ readings, noise, random }: PreparedTest, { normal }: RandomStream): ReadingErrors {
  const { degreesOfFreedom } = random;
  let { scale } = random;
  if (degreesOfFreedom < Infinity) {
    let chiSquare = 0;
    for (let index = 0; index < degreesOfFreedom; index++) chiSquare += normal() ** 2;
    scale *= Math.sqrt(degreesOfFreedom / chiSquare);
  }
  const [pressure, logFlow]: [number[], number[]] = [[], []];
  for (let index = 0; index < readings.length; index++) {
    pressure.push(scale * noise.pressure * normal());
    logFlow.push(scale * noise.flow * normal());
  }
  return { pressure, logFlow };
}

/**
 * Monte Carlo propagation: in every trial each source is drawn once, those of both directions first, and the whole test is evaluated anew, fit included.
 * @param shared The sources that act in every direction.
 * @param outputs Results wanted of the directions' results.
 * @param confidence Two-sided; limits are the quantiles that leave equal parts outside.
 * Source: JCGM 101:2008, clause 7; χ² of the scatter as 6.4.9.
 */
export function simulate(
  directions: readonly SimulatedDirection[],
  shared: readonly Source[],
  outputs: readonly ((results: readonly TrialResult[]) => number)[],
  { trials, seed, confidence }: { readonly trials: number; readonly seed: number; readonly confidence: number },
): Simulation {
  const stream = randomStream(seed);
  const values = outputs.map(() => new Float64Array(trials));
  const drawShared = drawer(shared, stream);
  const common = noErrors();
  const own = directions.map(({ test, sources }) => ({
    errors: noErrors(),
    drawOwn: drawer(sources, stream),
    evaluate: (errors: ModelErrors) => trial(test, errors, drawReadings(test, stream)),
  }));
  let kept = 0;
  for (let number = 0; number < trials; number++) {
    drawShared(common.fill(0));
    for (const { errors, drawOwn } of own) {
      errors.set(common);
      drawOwn(errors);
    }
    const results = own.map(({ errors, evaluate }) => evaluate(errors)).filter((result) => result !== undefined);
    if (results.length < directions.length) continue;
    outputs.forEach((output, index) => (values[index]![kept] = output(results)));
    kept++;
  }
  const dropped = trials - kept;
  if (dropped > 0.001 * trials) return { dropped };
  return { dropped, distributions: values.map((list) => distribution(list.subarray(0, kept), confidence)) };
}

function distribution(values: Float64Array, confidence: number): Distribution {
  const count = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  values.sort();
  const quantile = (fraction: number) => {
    const place = fraction * (count - 1);
    const below = values[Math.floor(place)]!;
    return below + (place - Math.floor(place)) * (values[Math.ceil(place)]! - below);
  };
  const outside = (1 - confidence) / 2;
  return {
    mean,
    standardDeviation: Math.sqrt(squares / (count - 1)),
    lower: quantile(outside),
    upper: quantile(1 - outside),
  };
}

/** Random errors of each reading: Pa of the pressure, and of ln q. */
export interface ReadingErrors {
  readonly pressure?: ArrayLike<number>;
  readonly logFlow?: ArrayLike<number>;
}

/** The line of a test that was read with errors: ln of a flow, a rate or an area but for its constant, or n. */
export type TrialResult = (output: Output) => number;

interface LogLine {
  readonly exponent: number;
  readonly meanLogPressure: number;
  readonly meanLogFlow: number;
  readonly prior?: LeakageFit["prior"];
}

/** Responses to a bend of the curve, which a simulation asks for in every trial, by the pressure. */
const knownBends = new WeakMap<PreparedTest, Map<number, number>>();

function bendAt(test: PreparedTest, output: Output & { of: "flow" }): number {
  const known = knownBends.get(test) ?? new Map<number, number>();
  knownBends.set(test, known);
  const response = known.get(output.pressure) ?? extrapolationResponse(test, output, readingResponse(test, output));
  known.set(output.pressure, response);
  return response;
}

/** What the errors of the air do: to ln q of every reading, and to the reference conditions. */
function airUnder(test: PreparedTest, errors: ModelErrors) {
  const { temperature, humidity, barometricPressure } = test.air;
  const side = (name: "indoor" | "outdoor", kelvins: number, fraction: number) => {
    const state = { temperature: temperature[name], pressure: barometricPressure, humidity: humidity[name] };
    const changed = {
      temperature: state.temperature + kelvins,
      pressure: state.pressure + errors[place.barometer]!,
      humidity: state.humidity + fraction,
    };
    return { change: logDensityRatio(changed, state), temperature: changed.temperature };
  };
  const indoor = side("indoor", errors[place.indoorTemperature]!, errors[place.indoorHumidity]!);
  const outdoor = side("outdoor", errors[place.outdoorTemperature]!, errors[place.outdoorHumidity]!);
  const [device, leaks] = test.direction === "depressurization" ? [indoor, outdoor] : [outdoor, indoor];
  return {
    logFlow: device.change / 2 - leaks.change,
    logDensity: test.logDensity + leaks.change,
    logViscosity: logViscosityAt(test.standard, leaks.temperature),
  };
}

/** Logarithms of induced pressures and flows under errors; undefined where one no longer exists. */
function logsUnder(
  test: PreparedTest,
  errors: ModelErrors,
  random: ReadingErrors,
): [x: number[], y: number[]] | undefined {
  const { readings, side, baselineBefore, baselineAfter = baselineBefore } = test;
  const before = baselineBefore + errors[place.baselineBefore]!;
  const after = baselineAfter + errors[place.baselineAfter]!;
  const drift = test.zeroFollowsTime === true ? 0 : errors[place.drift]!;
  const gain = 1 + errors[place.gaugeGain]! + errors[place.bothGaugeGains]!;
  const fanGain = 1 + errors[place.fanGain]! + errors[place.bothGaugeGains]!;
  const flowGain = 1 + errors[place.flowGain]!;
  const x: number[] = [];
  const y: number[] = [];
  for (let index = 0; index < readings.length; index++) {
    const reading = readings[index]!;
    const { pressure, flow, time, fan } = reading;
    const share = shareOfAfter(test, reading);
    const zero = (before + share * (after - before)) * gain + errors[place.baseline]!;
    const read = (pressure + (random.pressure?.[index] ?? 0)) * gain + errors[place.offset]! + drift * (time - 0.5);
    const induced = side * (read - zero);
    const fanRatio = fanGain + (fan.pressure === undefined ? 0 : errors[place.fanZero]! / fan.pressure);
    const gainOfFlow = flowGain * (1 + errors[place.openingGain + 2 * fan.opening]!);
    if (!(induced > 0 && fanRatio > 0 && gainOfFlow > 0)) return undefined;
    const logFan = Math.log(fanRatio);
    x.push(Math.log(induced));
    y.push(
      Math.log(flow * gainOfFlow) +
        fan.exponent * logFan +
        errors[place.openingExponent + 2 * fan.opening]! * (fan.logOverPivot + logFan) +
        (random.logFlow?.[index] ?? 0),
    );
  }
  return [x, y];
}

/** A reading with errors; its stated uncertainties keep their size relative to it. */
function movedTo(point: LeakageReading, pressure: number, flow: number): LeakageReading {
  const { pressureUncertainty: ofPressure, flowUncertainty: ofFlow } = point;
  return {
    ...point,
    pressure,
    flow,
    pressureUncertainty: ofPressure && (ofPressure * pressure) / point.pressure,
    flowUncertainty: ofFlow && (ofFlow * flow) / point.flow,
  };
}

/** The line through logarithms; the ordinary one at once, since a simulation asks for it many thousand times. */
function lineThrough(test: PreparedTest, x: readonly number[], y: readonly number[]): LogLine {
  if (test.technique !== "ordinary") {
    return fitLeakage(
      test.points.map((point, index) => movedTo(point, Math.exp(x[index]!), Math.exp(y[index]!))),
      test.technique,
    );
  }
  let [meanLogPressure, meanLogFlow] = [0, 0];
  for (let index = 0; index < x.length; index++) {
    meanLogPressure += x[index]! / x.length;
    meanLogFlow += y[index]! / x.length;
  }
  let [sumXX, sumXY] = [0, 0];
  for (let index = 0; index < x.length; index++) {
    const deviation = x[index]! - meanLogPressure;
    sumXX += deviation * deviation;
    sumXY += deviation * (y[index]! - meanLogFlow);
  }
  return { exponent: sumXY / sumXX, meanLogPressure, meanLogFlow };
}

/**
 * The model of a test as one function from its errors to its results, nothing linearized: baseline, induced pressures, flow device, air, fit, reference
 * conditions. Undefined where a pressure, a flow, a density or a size is no longer above 0: such a test could not be evaluated.
 */
export function trial(test: PreparedTest, errors: ModelErrors, random: ReadingErrors = {}): TrialResult | undefined {
  const logs = logsUnder(test, errors, random);
  if (logs === undefined) return undefined;
  const air = airUnder(test, errors);
  if (!(errors[place.size]! > -1 && Number.isFinite(air.logFlow))) return undefined;
  const { meanLogPressure, meanLogFlow, prior, ...line } = lineThrough(test, ...logs);
  const exponent = line.exponent + (prior?.share ?? 0) * errors[place.expectedExponent]!;
  const at = (logPressure: number) => meanLogFlow + air.logFlow + exponent * (logPressure - meanLogPressure);
  return (output) => {
    switch (output.of) {
      case "exponent":
        return exponent;
      case "coefficient":
        return at(0);
      case "flow": {
        const shifted = Math.log(output.pressure) - air.logDensity + 2 * air.logViscosity;
        const shape = output.ofLine === true ? 0 : errors[place.extrapolation]! * bendAt(test, output);
        const size = output.perSize === true ? Math.log1p(errors[place.size]!) : 0;
        return at(shifted) + air.logDensity - air.logViscosity + shape - size;
      }
    }
  };
}

type Agreement = "validated" | "acceptable" | "neither";

/**
 * Whether a simulation confirms the limits of a budget: both ends within half a unit of the second significant digit of u ("validated"), of the first
 * ("acceptable"), or not.
 * Source: JCGM 101:2008, 8.1 and 7.9.2.
 * Example: agreement({ lower: 0.552, upper: 0.648 }, { lower: 0.553, upper: 0.647 }, 0.024) → "acceptable"
 */
export function agreement(
  budget: Pick<Limits, "lower" | "upper">,
  simulated: Pick<Limits, "lower" | "upper">,
  standardUncertainty: number,
): Agreement {
  const difference = Math.max(Math.abs(budget.lower - simulated.lower), Math.abs(budget.upper - simulated.upper));
  const unit = 10 ** Math.floor(Math.log10(standardUncertainty));
  if (difference <= unit / 20) return "validated";
  return difference <= unit / 2 ? "acceptable" : "neither";
}

/** A stream of random numbers that is the same on every machine for a seed. */
interface RandomStream {
  /** A whole number from 0 to 2³² − 1. */
  readonly integer: () => number;
  /** Between 0 and 1, neither included. */
  readonly uniform: () => number;
  /** Of the standard normal law. */
  readonly normal: () => number;
}

const rotated = (value: number, bits: number) => (value << bits) | (value >>> (32 - bits));

/**
 * xoshiro128**: its state is the first 32 bits of the fractions of the golden ratio, π and e, and the seed; 16 outputs are discarded. Normals by Box and
 * Muller in pairs, cosine first.
 * Source: D. Blackman, S. Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47 (2021).
 */
export function randomStream(seed: number): RandomStream {
  let [a, b, c, d] = [0x9e3779b9, 0x243f6a88, 0xb7e15162, seed];
  const integer = () => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotated(d, 11);
    return result;
  };
  for (let skipped = 0; skipped < 16; skipped++) integer();
  const uniform = () => (integer() + 0.5) / 2 ** 32;
  let spare: number | undefined;
  const normal = () => {
    if (spare !== undefined) {
      const value = spare;
      spare = undefined;
      return value;
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { integer, uniform, normal };
}
