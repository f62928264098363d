import type { Exact } from "../../high-precision/decimal";
import { at, exact, sum } from "../../high-precision/decimal";
import type { Points } from "../../high-precision/techniques";
import type { Row } from "./combination";
import type { BudgetInputs } from "./inputs";
import { noiseOf, randomPart, type RandomPart } from "./random-part";
import { slopes } from "./sensitivities";
import { baselineSources, modelSource, sharedSources, windSource, type Source } from "./sources";
import { abscissa, lnFlow, modelOf, type Outcome } from "./whole-test";

/** An output of one direction: n, or ln n50 but for the measured volume. */
type Output = (of: Outcome) => Exact;
const lnN50: Output = (of) => lnFlow(of, 50).minus(of.lnSize);
const exponent: Output = ({ n }) => n;

/** One direction as read, with its rows. */
export interface Direction {
  readonly points: Points;
  readonly read: Outcome;
  readonly random: RandomPart;
  readonly n50: Exact;
  readonly own: readonly Source[];
  readonly sensitivity: (source: string, output: Output) => Exact;
  /** What a curve that bends by 1 per unit of ln Δp adds to the logarithm of the flow at a pressure; 0 among the readings. */
  readonly bend: (pressure: number) => Exact;
}

/** The rows that act in every direction, and each direction with its own. */
export interface Budget {
  readonly shared: readonly Source[];
  readonly directions: readonly Direction[];
}

export function computeBudget(inputs: BudgetInputs): Budget {
  const baselines = inputs.directions.map((given) => baselineSources(given));
  const [first, ...others] = baselines;
  if (first === undefined) throw new Error("no direction");
  if (inputs.baseline_shared && others.some(({ sets }) => !sets.before.mean.equals(first.sets.before.mean)))
    throw new Error("a shared baseline has the same rows in both directions");
  const wind = windSource(inputs);
  const directions = baselines.map(({ sets, means, course }, index): Direction => {
    const { points, outcome } = modelOf(inputs, index);
    const read = outcome({});
    const noise = noiseOf(at(inputs.directions, index), sets.deviation?.u);
    const random = randomPart(inputs.technique, points, read, noise);
    return {
      points,
      read,
      random,
      n50: lnN50(read).exp().dividedBy(exact(inputs.volume)),
      own: [...(inputs.baseline_shared ? [] : means), ...course, wind],
      sensitivity: slopes(outcome),
      bend: (pressure) => bend(points.x, random, read, pressure),
    };
  });
  return { shared: [...sharedSources(inputs), ...(inputs.baseline_shared ? first.means : [])], directions };
}

/** z = ½·Σ a_i·(x_i − ℓ)² beyond the readings. */
function bend(x: readonly Exact[], random: RandomPart, read: Outcome, pressure: number): Exact {
  const [low, high] = [exact(pressure).ln().minus("1e-9"), exact(pressure).ln().plus("1e-9")];
  if (x.some((value) => value.greaterThan(low)) && x.some((value) => value.lessThan(high))) return exact(0);
  const along = abscissa(read, pressure);
  const terms = random.flowToFlows(along).map((weight, i) => weight.times(at(x, i).minus(along).pow(2)));
  return sum(terms).dividedBy(2);
}

/** The rows of the mean n50: shared ones with their signed sensitivities added, each direction's own with its weight. */
export function rowsOfMean({ shared, directions }: Budget): Row[] {
  const total = sum(directions.map(({ n50 }) => n50));
  const weights = directions.map(({ n50 }) => n50.dividedBy(total));
  const added = (of: (direction: Direction) => Exact) =>
    sum(directions.map((direction, i) => of(direction).times(at(weights, i))));
  return [
    ...shared.map((row) => ({ ...row, sensitivity: added(({ sensitivity }) => sensitivity(row.source, lnN50)) })),
    { ...modelSource, sensitivity: added((direction) => direction.bend(50)) },
    ...directions.flatMap(({ own, random, read, sensitivity }, index) => [
      ...own.map(({ source, ...law }) => ({
        source: `${source}${index}`,
        ...law,
        sensitivity: sensitivity(source, lnN50).times(at(weights, index)),
      })),
      {
        source: `random${index}`,
        u: random.ofFlow(abscissa(read, 50)),
        dof: random.dof,
        sensitivity: at(weights, index),
      },
    ]),
  ];
}

/** The rows of n in one direction. */
export function rowsOfExponent({ shared }: Budget, { own, random, sensitivity }: Direction): Row[] {
  return [
    ...[...shared, ...own].map((row) => ({ ...row, sensitivity: sensitivity(row.source, exponent) })),
    { source: "random", u: random.ofExponent, dof: random.dof, sensitivity: exact(1) },
  ];
}
