import { formatFigure } from "../../words";
import type { Finding } from "../finding";
import { type MeasuredReading, measureSeries } from "../compared-tests";
import type { Check } from "../review";

/**
 * One reading entered twice in a series: pressure and flow the same to the last digit. With a gauge that shows tenths, gusts of half a pascal and flows
 * to 1 in 1000, two readings at one setting agree in both less often than once in a thousand.
 */
export const findRepeatedReadings: Check = ({ view, runs }) =>
  runs.flatMap((run) => {
    const series = measureSeries(view, run);
    return series.flatMap((reading, index): Finding[] => {
      const first = series.slice(0, index).find((other) => isRepeated(reading, other));
      if (!first) return [];
      return [
        {
          kind: "repeated reading",
          severity: "warning",
          place: view.formatAddress(reading.place),
          what: `${formatFigure(reading.pressure, 6)} Pa and its flow are the same, to the last digit, as in ${view.formatAddress(first.place)}.`,
          why: "A reading entered twice counts twice, and may stand in for one that was left out.",
          todo: "Compare with the gauge log, and enter each reading once.",
        },
      ];
    });
  });

/** Whole pascals and round flows say nothing: a gauge that shows no more repeats itself. */
function isRepeated(one: MeasuredReading, other: MeasuredReading): boolean {
  if (one.pressure !== other.pressure || Number.isInteger(one.pressure) || one.flows.length === 0) return false;
  const [flow = 0] = one.flows;
  const digits = String(flow).replace(/^0\.0*|\./g, "").length;
  return digits >= 3 && one.flows.length === other.flows.length && one.flows.every((v, i) => v === other.flows[i]);
}
