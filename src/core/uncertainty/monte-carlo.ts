import { randomStream, type RandomStream } from "./generator";
import { noErrors, placeOf, type ModelErrors } from "./model-errors";
import type { PreparedTest } from "./model";
import type { Source } from "./source";
import { trial, type ReadingErrors, type TrialResult } from "./trial";

/** One direction of a simulated test. */
export interface SimulatedDirection {
  readonly test: PreparedTest;
  /** The sources that act in this direction alone. */
  readonly sources: readonly Source[];
}

export interface Distribution {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly lower: number;
  readonly upper: number;
}

export interface Simulation {
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
