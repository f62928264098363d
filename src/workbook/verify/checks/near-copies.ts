import type { EnteredRun } from "../../book/tests/entered-runs";
import { formatFigure } from "../../formatting";
import { isComputedFrom, isOneSeries } from "../compared-tests";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";

/** Fewer readings agree by chance. */
const leastReadings = 6;
/** Scatter of the differences of the pressures, Pa: a fan that holds its pressure by itself may be that steady, a hand is not. */
const steadiest = 0.3;
/**
 * How much less the flows of two runs scatter against each other than each about its own line. The scatters of two measurements add up; for
 * eight readings, each a third of its own happens fewer than 5 times in 10 000 (a correlation above 0.95), and only where the pressures agree too.
 */
const leastRatio = 3;

/** Readings of a run that follow those of another one, scatter included: a copy that was changed a little. */
export const findNearCopies: Check = (review) => {
  const { runs, view } = review;
  const logs = new Map(runs.map((run) => [run, readLogs(review, run)]));
  return runs.flatMap((one, index) =>
    runs.slice(index + 1).flatMap((other): Finding[] => {
      const [a = [], b = []] = [logs.get(one), logs.get(other)];
      if (a.length < leastReadings || a.length !== b.length) return [];
      if (isOneSeries(view, one, other) || isComputedFrom(view, one, other) || isComputedFrom(view, other, one))
        return [];
      const pressures = a.map(({ pressure }, row) => pressure - (b[row]?.pressure ?? 0));
      const ratios = a.map(({ flow }, row) => Math.log(flow / (b[row]?.flow ?? NaN)));
      const x = a.map(({ pressure }) => Math.log(pressure));
      const between = scatterAbout(x, ratios);
      const ownOf = (series: readonly Reading[]) =>
        scatterAbout(
          series.map(({ pressure }) => Math.log(pressure)),
          series.map(({ flow }) => Math.log(flow)),
        );
      const least = Math.min(ownOf(a), ownOf(b));
      // A copy to the last digit has a name of its own.
      const isExact = pressures.every((difference) => difference === 0) || between < 1e-6;
      if (isExact || !(scatterOf(pressures) < steadiest && between * leastRatio < least)) return [];
      return [
        {
          kind: "copied readings",
          severity: "warning",
          place: view.formatArea(other.pressures),
          what: `The readings follow those of ${one.direction} in ${view.formatArea(one.pressures)}: the pressures differ with a scatter of ${formatFigure(scatterOf(pressures), 2)} Pa, and the flows scatter ${formatFigure(least / between, 2)} times less against each other than about their own line.`,
          why: "Gusts and gauges give each measurement its own scatter; readings that share it were not measured twice.",
          todo: "Ask for the gauge log of both series.",
        },
      ];
    }),
  );
};

interface Reading {
  readonly pressure: number;
  readonly flow: number;
}

function readLogs({ view }: Review, run: EnteredRun): Reading[] {
  return run.readings.flatMap(({ pressure, flows }) => {
    const [p, flow] = [
      view.readNumber(pressure),
      flows[0] && flows.length === 1 ? view.readNumber(flows[0]) : undefined,
    ];
    return p !== undefined && flow !== undefined && flow > 0 && p !== 0 ? [{ pressure: Math.abs(p), flow }] : [];
  });
}

function scatterOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

/** The scatter of y about its straight line over x. */
function scatterAbout(x: readonly number[], y: readonly number[]): number {
  const count = x.length;
  const [meanX, meanY] = [x, y].map((values) => values.reduce((sum, value) => sum + value, 0) / count);
  let [xx, xy, yy] = [0, 0, 0];
  x.forEach((value, index) => {
    const [dx, dy] = [value - (meanX ?? 0), (y[index] ?? 0) - (meanY ?? 0)];
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  });
  return xx > 0 ? Math.sqrt(Math.max(0, yy - (xy * xy) / xx) / (count - 2)) : Infinity;
}
