import { computeBudget, type Direction } from "./budget";
import type { BudgetInputs } from "./inputs";
import { nativeTest, type NativeErrors } from "./native-test";
import { randomNumbers, type RandomNumbers } from "./random-numbers";
import { modelSource, type Source } from "./sources";

/** Sorted values of the mean n50 and of n in each direction; a trial that leaves a pressure at or below 0 is dropped. */
export interface Trials {
  readonly n50: Float64Array;
  readonly exponents: readonly Float64Array[];
  readonly dropped: number;
}

type Draw<T> = (random: RandomNumbers) => T;

/** JCGM 101: whole tests with errors drawn from the laws of the budget's rows, each fitted anew. */
export function simulate(inputs: BudgetInputs, trials: number, seed: number): Trials {
  const random = randomNumbers(seed);
  const budget = computeBudget(inputs);
  const drawShared = drawing([...budget.shared, modelSource]);
  const directions = budget.directions.map((direction, index) => ({
    drawOwn: drawing(direction.own),
    drawNoise: noiseOf(direction),
    test: nativeTest(inputs, index),
    bend: direction.bend(50).toNumber(),
  }));
  const n50 = new Float64Array(trials);
  const exponents = directions.map(() => new Float64Array(trials));
  let kept = 0;
  for (let trial = 0; trial < trials; trial++) {
    const { vol = 0, model = 0, ...shared } = drawShared(random);
    let flows = 0;
    directions.forEach(({ drawOwn, drawNoise, test, bend }, index) => {
      const outcome = test({ of: { ...shared, ...drawOwn(random) }, ...drawNoise(random) });
      flows += outcome === undefined ? NaN : Math.exp(outcome.lnFlow50 + model * bend);
      exponents[index]![kept] = outcome?.n ?? NaN;
    });
    if (Number.isNaN(flows)) continue;
    n50[kept] = flows / directions.length / (inputs.volume * (1 + vol));
    kept++;
  }
  const sorted = (values: Float64Array) => values.slice(0, kept).sort();
  return { n50: sorted(n50), exponents: exponents.map(sorted), dropped: trials - kept };
}

const rectangularOnes = new Set("gain_e off_e gain_f off_f phii phie stack wind bconst model".split(" "));

function drawing(sources: readonly Source[]): Draw<Record<string, number>> {
  const laws = sources.map(({ source, u }) => ({
    source,
    u: u.toNumber(),
    isRectangular: rectangularOnes.has(source),
  }));
  return (random) => {
    const errors: Record<string, number> = {};
    for (const { source, u, isRectangular } of laws)
      errors[source] = u * (isRectangular ? Math.sqrt(3) * (2 * random.uniform() - 1) : random.normal());
    return errors;
  };
}

/** Noise of the readings. Its size is known from N − 2 degrees of freedom, so each trial draws another from their χ². */
function noiseOf({ points, random: { kappa2, noise, dof } }: Direction): Draw<Omit<NativeErrors, "of">> {
  const kappa = kappa2.sqrt().toNumber();
  const [ofPressure, ofFlow] = [noise.ofPressure.toNumber(), noise.ofFlow.toNumber()];
  return (random) => {
    const size = dof === "infinite" ? kappa : kappa * Math.sqrt(dof / chiSquare(dof, random));
    const draw = (u: number) => points.x.map(() => size * u * random.normal());
    return { pressures: draw(ofPressure), flows: draw(ofFlow) };
  };
}

function chiSquare(dof: number, random: RandomNumbers): number {
  let sum = 0;
  for (let i = 0; i < dof; i++) sum += random.normal() ** 2;
  return sum;
}
