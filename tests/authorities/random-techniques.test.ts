import { describe, expect, test } from "vitest";
import type { LeakageFit, LeakageReading, Technique } from "../../src/core";
import {
  covarianceOfExponentAndLogCoefficient,
  fitLeakage,
  influences,
  readingSensitivities,
  standardErrorOfLogFlow,
} from "../../src/core";
import { pointsCase } from "./high-precision/cases";
import type { Exact } from "./high-precision/decimal";
import { at, exact } from "./high-precision/decimal";
import { Random } from "./high-precision/random";
import type { Points, TechniqueLine } from "./high-precision/techniques";
import {
  derivatives,
  errorsInBoth,
  errorsInBothLine,
  normalEquations,
  ones,
  organic,
  organicUnder,
  organicWeights,
  weighted,
  weightedBySquaredFlow,
  weightedOrganic,
} from "./high-precision/techniques";
import { expectAgreement } from "./support/compare";
import { uncertainReadings, type ReadingErrors } from "./support/leakage";

const FIFTY = "the reference has fifty digits and takes each double at the value it holds";
const SETTLED = "the iteration stops when n moves by 1e-13 of itself";

type Line = { n: Exact; a: Exact };

interface Way {
  readonly name: string;
  readonly technique: Technique;
  readonly told: readonly (keyof ReadingErrors)[];
  readonly reference: (points: Points) => TechniqueLine;
  /** The line alone, as the sensitivities hold it: weights fixed at these points where they do not follow the line. */
  readonly held: (points: Points) => (moved: Points) => Line;
  readonly tolerance: number;
}

const squares = (points: Points) => points.y.map((y) => y.times(2).exp());
const inverse = (points: Points) => (points.uy ?? []).map((u) => exact(1).dividedBy(u.pow(2)));

const ways: Way[] = [
  {
    name: "weighted by q²",
    technique: "weighted",
    told: [],
    reference: weightedBySquaredFlow,
    held: (points) => (moved) => normalEquations(moved, squares(points)),
    tolerance: 1e-12,
  },
  {
    name: "weighted by 1/u²(y)",
    technique: "weighted",
    told: ["flow"],
    reference: weighted,
    held: (points) => (moved) => normalEquations(moved, inverse(points)),
    tolerance: 1e-12,
  },
  {
    name: "effective weights",
    technique: "weighted",
    told: ["pressure", "flow"],
    reference: weighted,
    held: () => weighted,
    tolerance: 1e-11,
  },
  {
    name: "organic correlation",
    technique: "organic correlation",
    told: [],
    reference: organic,
    held: () => (moved) => organicUnder(moved, ones(moved)),
    tolerance: 1e-12,
  },
  {
    name: "weighted organic correlation",
    technique: "weighted organic correlation",
    told: ["pressure", "flow"],
    reference: weightedOrganic,
    held: (points) => (moved) => organicUnder(moved, organicWeights(points)),
    tolerance: 1e-12,
  },
  {
    name: "errors in both",
    technique: "errors in both",
    told: ["pressure", "flow"],
    reference: errorsInBoth,
    held: () => errorsInBothLine,
    tolerance: 1e-11,
  },
  {
    name: "errors in both, correlated",
    technique: "errors in both",
    told: ["pressure", "flow", "correlation"],
    reference: errorsInBoth,
    held: () => errorsInBothLine,
    tolerance: 1e-11,
  },
];

const families = [
  "as a tester writes it",
  "three readings",
  "huge flows",
  "tiny flows",
  "wide range of pressures",
  "nearly equal pressures",
  "one reading far away",
  "almost without scatter",
];

interface Case {
  readonly readings: LeakageReading[];
  readonly points: Points;
}

/** Readings of a family with errors of the size that a tester would state, some stated too small and some too large. */
function makeCase(seed: number, family: string, told: Way["told"]): Case {
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

/** What doubles can know of a scatter: each residual is right to some 1e-16, so a small scatter has fewer digits. */
function scatterTolerance(tolerance: number, fit: LeakageFit): number {
  return Math.max(tolerance, 3e-15 / fit.residualDeviation);
}

const pairs = ways.flatMap((way) => families.map((family) => ({ ...way, family })));

describe.each(pairs)("random readings against fifty digits: $name, $family", (way) => {
  const because = way.tolerance > 1e-12 ? SETTLED : FIFTY;

  test("line, standard errors, covariance, χ²", () => {
    for (let seed = 7000; seed < 7010; seed += 1) {
      const { readings, points } = makeCase(seed, way.family, way.told);
      const fit = fitLeakage(readings, way.technique);
      const expected = way.reference(points);
      expectAgreement(fit.exponent, expected.n.toNumber(), way.tolerance, because);
      // ln C is a small difference where the line is steep: it is known to the digits of n·x̄.
      const size = Math.max(1, Math.abs((fit.exponent * fit.meanLogPressure) / expected.a.toNumber()));
      expectAgreement(fit.logCoefficient, expected.a.toNumber(), way.tolerance * size, because);
      const tolerance = scatterTolerance(way.tolerance, fit);
      const { enlargement } = fit;
      const deviation = (variance: Exact) => variance.sqrt().toNumber();
      expectAgreement(fit.standardErrorOfExponent / enlargement, deviation(expected.varianceN), tolerance, because);
      expectAgreement(
        fit.standardErrorOfLogCoefficient / enlargement,
        deviation(expected.varianceA),
        tolerance,
        because,
      );
      const covariance = covarianceOfExponentAndLogCoefficient(fit) / enlargement ** 2;
      expectAgreement(covariance, expected.covariance.toNumber(), 2 * tolerance, because);
      const x = exact(50).ln();
      const variance = expected.varianceA
        .plus(x.pow(2).times(expected.varianceN))
        .plus(x.times(2).times(expected.covariance));
      expectAgreement(
        standardErrorOfLogFlow(fit, Math.log(50)) / enlargement,
        deviation(variance),
        10 * tolerance,
        because,
      );
      if (expected.chi2) expectAgreement(fit.chiSquare ?? NaN, expected.chi2.toNumber(), 10 * tolerance, because);
    }
  });
});

const leaveOneOut = ways.filter(({ told }) => !told.includes("correlation"));

describe.each(leaveOneOut)("what one reading does, against fifty digits: $name", (way) => {
  test("sensitivities of ln q at three pressures and of n", () => {
    for (const seed of [7100, 7101]) {
      const { readings, points } = makeCase(seed, "as a tester writes it", way.told);
      const along = readingSensitivities(fitLeakage(readings, way.technique), readings);
      const moves = derivatives(points, way.held(points));
      // A derivative may happen to lie near 0: it is known to the tolerance of the largest.
      const tolerance = way.tolerance > 1e-12 ? 1e-8 : 1e-11;
      for (const pressure of [4, 50]) {
        const x = exact(pressure).ln();
        const rows = along(Math.log(pressure));
        const exactMoves = moves.map(({ x: byX, y: byY }) => ({
          flowToFlow: byY.a.plus(x.times(byY.n)).toNumber(),
          flowToPressure: byX.a.plus(x.times(byX.n)).toNumber(),
          exponentToFlow: byY.n.toNumber(),
          exponentToPressure: byX.n.toNumber(),
        }));
        for (const name of ["flowToFlow", "flowToPressure", "exponentToFlow", "exponentToPressure"] as const) {
          const largest = Math.max(...exactMoves.map((move) => Math.abs(move[name])));
          rows.forEach((row, index) => {
            const miss = Math.abs(row[name] - at(exactMoves, index)[name]) / largest;
            expect(miss, `${name} of reading ${index + 1}, seed ${seed}`).toBeLessThan(tolerance);
          });
        }
      }
    }
  });

  test("the line without each reading, and Cook's distance from it", () => {
    const { readings, points } = makeCase(7200, "as a tester writes it", way.told);
    const fit = fitLeakage(readings, way.technique);
    const line = way.reference(points);
    const pulls = influences(fit, readings, 50);
    const all = points.x.map((_, index) => index);
    const weights = weightsOf(way, points, line);
    const residual = (index: number) =>
      at(points.y, index)
        .minus(line.a)
        .minus(line.n.times(at(points.x, index)));
    const variance = all
      .reduce((sum, index) => sum.plus(at(weights, index).times(residual(index).pow(2))), exact(0))
      .dividedBy(all.length - 2);
    for (const left of all) {
      const others = way.reference(less(points, left));
      const pull = at(pulls, left);
      expectAgreement(pull.exponentWithout ?? NaN, others.n.toNumber(), 1e-11, SETTLED);
      const flow = others.a
        .plus(others.n.times(exact(50).ln()))
        .exp()
        .toNumber();
      expectAgreement(pull.flowWithout ?? NaN, flow, 1e-11, SETTLED);
      const shifts = all.reduce((sum, index) => {
        const shift = line.a.minus(others.a).plus(line.n.minus(others.n).times(at(points.x, index)));
        return sum.plus(at(weights, index).times(shift.pow(2)));
      }, exact(0));
      const cook = shifts.dividedBy(variance.times(2)).toNumber();
      expectAgreement(
        pull.cooksDistance ?? NaN,
        cook,
        1e-8,
        "a shift is the difference of two lines that stop at 1e-13",
      );
      const own = readingSensitivities(fit, readings)(Math.log(at(readings, left).pressure))[left]?.flowToFlow;
      expectAgreement(pull.leverage, own ?? NaN, 1e-12, "the same by definition");
    }
  });
});

function less(points: Points, index: number): Points {
  const without = (values: readonly Exact[]) => values.filter((_, position) => position !== index);
  return {
    x: without(points.x),
    y: without(points.y),
    ...(points.ux && { ux: without(points.ux) }),
    ...(points.uy && { uy: without(points.uy) }),
  };
}

/** Weights in which a shift of the line is measured: those of χ² where errors were stated, else the technique's own. */
function weightsOf({ name }: Way, points: Points, { n }: Line): Exact[] {
  if (name === "weighted by q²") return squares(points);
  if (!points.uy) return ones(points);
  return points.uy.map((uy, index) => {
    const across = points.ux ? n.times(at(points.ux, index)) : exact(0);
    return exact(1).dividedBy(uy.pow(2).plus(across.pow(2)));
  });
}
