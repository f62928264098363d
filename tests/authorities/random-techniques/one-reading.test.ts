import { describe, expect, test } from "vitest";
import { fitLeakage, influences, readingSensitivities } from "../../../src/core";
import { at, exact } from "../high-precision/decimal";
import type { Exact } from "../high-precision/decimal";
import { derivatives, ones, withAssumed } from "../high-precision/techniques";
import type { Points } from "../high-precision/techniques";
import { expectAgreement } from "../support/compare";
import { SETTLED, type Line, type Way, squares, ways, makeCase } from "./ways";

const leaveOneOut = ways.filter(({ told }) => !told.includes("correlation"));

function less(points: Points, index: number): Points {
  const without = (values: readonly Exact[]) => values.filter((_, position) => position !== index);
  return {
    x: without(points.x),
    y: without(points.y),
    ...(points.ux && { ux: without(points.ux) }),
    ...(points.uy && { uy: without(points.uy) }),
  };
}

/** Weights in which a shift of the line is measured: those of χ² where errors were stated or assumed, else the technique's own. */
function weightsOf({ name, technique }: Way, told: Points, { n }: Line): Exact[] {
  if (name === "weighted by q²") return squares(told);
  const points = technique === "weighted with expected exponent" ? withAssumed(told) : told;
  if (!points.uy) return ones(points);
  return points.uy.map((uy, index) => {
    const across = points.ux ? n.times(at(points.ux, index)) : exact(0);
    return exact(1).dividedBy(uy.pow(2).plus(across.pow(2)));
  });
}

describe.each(leaveOneOut)("what one reading does, against fifty digits: $name", (way) => {
  test("sensitivities of ln q at three pressures and of n", () => {
    for (const seed of [7100, 7101]) {
      const { readings, points } = makeCase(seed, "as a tester writes it", way.told);
      const along = readingSensitivities(fitLeakage(readings, way.technique), readings);
      const moves = derivatives(points, way.held(points));
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
            // A derivative may happen to lie near 0: it is known to the tolerance of the largest.
            expect(miss, `${name} of reading ${index + 1}, seed ${seed}`).toBeLessThan(way.ofMoves);
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
