import type { LeakageReading, Technique } from "../../../src/core";
import { pointsCase } from "../high-precision/cases";
import { at, exact } from "../high-precision/decimal";
import type { Exact } from "../high-precision/decimal";
import { Random } from "../high-precision/random";
import {
  errorsInBoth,
  errorsInBothLine,
  expectedExponent,
  normalEquations,
  ones,
  organic,
  organicUnder,
  organicWeights,
  weighted,
  weightedBySquaredFlow,
  weightedOrganic,
  withAssumed,
} from "../high-precision/techniques";
import type { Points, TechniqueLine } from "../high-precision/techniques";
import { uncertainReadings, type ReadingErrors } from "../support/leakage";

export const SETTLED = "the iteration stops when n moves by 1e-13 of itself";

export type Line = { n: Exact; a: Exact };

export interface Way {
  readonly name: string;
  readonly technique: Technique;
  readonly told: readonly (keyof ReadingErrors)[];
  readonly reference: (points: Points) => TechniqueLine;
  /** The line alone, as the sensitivities hold it: weights fixed at these points where they do not follow the line. */
  readonly held: (points: Points) => (moved: Points) => Line;
  readonly tolerance: number;
  /** Of its sensitivities. */
  readonly ofMoves: number;
}

export const squares = (points: Points) => points.y.map((y) => y.times(2).exp());

const inverse = (points: Points) => (points.uy ?? []).map((u) => exact(1).dividedBy(u.pow(2)));

/** The line with expected exponent, the relative uncertainties of the readings held. */
const heldExpected = (points: Points) => {
  const { ux = [], uy = [], assumed = false } = withAssumed(points);
  return (moved: Points) => expectedExponent({ ...moved, ux, uy, assumed });
};

const expected = (name: string, told: Way["told"]): Way => ({
  name: `expected exponent, ${name}`,
  technique: "weighted with expected exponent",
  told,
  reference: expectedExponent,
  held: heldExpected,
  tolerance: 1e-11,
  ofMoves: 1e-10,
});

export const ways: Way[] = [
  {
    name: "weighted by q²",
    technique: "weighted",
    told: [],
    reference: weightedBySquaredFlow,
    held: (points) => (moved) => normalEquations(moved, squares(points)),
    tolerance: 1e-12,
    ofMoves: 1e-11,
  },
  {
    name: "weighted by 1/u²(y)",
    technique: "weighted",
    told: ["flow"],
    reference: weighted,
    held: (points) => (moved) => normalEquations(moved, inverse(points)),
    tolerance: 1e-12,
    ofMoves: 1e-11,
  },
  {
    name: "effective weights",
    technique: "weighted",
    told: ["pressure", "flow"],
    reference: weighted,
    held: () => weighted,
    tolerance: 1e-11,
    ofMoves: 1e-8,
  },
  {
    name: "organic correlation",
    technique: "organic correlation",
    told: [],
    reference: organic,
    held: () => (moved) => organicUnder(moved, ones(moved)),
    tolerance: 1e-12,
    ofMoves: 1e-11,
  },
  {
    name: "weighted organic correlation",
    technique: "weighted organic correlation",
    told: ["pressure", "flow"],
    reference: weightedOrganic,
    held: (points) => (moved) => organicUnder(moved, organicWeights(points)),
    tolerance: 1e-12,
    ofMoves: 1e-11,
  },
  {
    name: "errors in both",
    technique: "errors in both",
    told: ["pressure", "flow"],
    reference: errorsInBoth,
    held: () => errorsInBothLine,
    tolerance: 1e-11,
    ofMoves: 1e-8,
  },
  {
    name: "errors in both, correlated",
    technique: "errors in both",
    told: ["pressure", "flow", "correlation"],
    reference: errorsInBoth,
    held: () => errorsInBothLine,
    tolerance: 1e-11,
    ofMoves: 1e-8,
  },
  expected("nothing stated", []),
  expected("pressures stated", ["pressure"]),
  expected("flows stated", ["flow"]),
  expected("both stated", ["pressure", "flow"]),
];

export interface Case {
  readonly readings: LeakageReading[];
  readonly points: Points;
}

/** Readings of a family with errors of the size that a tester would state, some stated too small and some too large. */
export function makeCase(seed: number, family: string, told: Way["told"]): Case {
  const random = new Random(seed);
  const { pressures, flows } = pointsCase(random, family);
  // Nearly equal pressures leave n in doubt: with larger errors of the pressures the weights can swing between two slopes for ever, which is refused.
  const near = family === "nearly equal pressures" || family === "almost without scatter" ? 1e-6 : 1;
  const narrow = family === "nearly equal pressures" ? 0.03 : 1;
  const all = {
    pressure: pressures.map((pressure) => near * narrow * pressure * random.magnitude(1e-3, 3e-2)),
    flow: flows.map((flow) => near * flow * random.magnitude(2e-3, 5e-2)),
    correlation: pressures.map(() => random.between(-0.8, 0.8)),
  };
  const errors: ReadingErrors = Object.fromEntries(
    Object.entries(all).filter(([name]) => told.includes(name as "flow")),
  );
  const relative = (own: readonly number[] | undefined, values: readonly number[]) =>
    own?.map((value, index) => exact(value).dividedBy(exact(at(values, index))));
  const [ux, uy] = [relative(errors.pressure, pressures), relative(errors.flow, flows)];
  const points: Points = {
    x: pressures.map((pressure) => exact(pressure).ln()),
    y: flows.map((flow) => exact(flow).ln()),
    ...(ux && { ux }),
    ...(uy && { uy }),
    ...(errors.correlation && { rho: errors.correlation.map((value) => exact(value)) }),
  };
  return { readings: uncertainReadings(pressures, flows, errors), points };
}
