import { placeKey } from "../../book/area";
import type { Finding } from "../finding";
import { measureGap, isSame, listResults } from "../compared-tests";
import type { Check } from "../review";
import { formatFigure } from "../../words";

const symbols = ["n50", "q50", "qE50", "qF50", "n_pr", "q_pr", "qE_pr", "qF_pr", "ELA4", "AL10", "EqLA10"];
/** Within this, a figure is taken for one of the test's results, altered; beyond it, for another quantity. */
const near = 0.3;

/** A verdict on a figure computed from one house's tests that is slightly below their result but matches none: a factor or deduction along the way. */
export const findAlteredResults: Check = (review) => {
  const { view, verdicts, runs, tests } = review;
  return verdicts.flatMap(({ result, call }): Finding[] => {
    const place = result?.area && view.listCells(result.area)[0];
    const value = place && view.readNumber(place);
    if (!place || value === undefined || !(value > 0)) return [];
    const behind = view.findUpstream(result.areas);
    const own = runs.filter(({ readings }) => readings.some(({ pressure }) => behind.has(placeKey(pressure))));
    if (!tests.areOfOneHouse(own)) return [];
    const results = symbols.flatMap((symbol) => listResults(review, own, symbol));
    if (results.length === 0 || results.some((known) => isSame(known, value))) return [];
    const closest = results.reduce((best, known) =>
      measureGap(known, value) < measureGap(best, value) ? known : best,
    );
    if (value >= closest || measureGap(closest, value) > near) return [];
    return [
      {
        kind: "result altered",
        severity: "warning",
        place: view.formatAddress(place),
        what: `The verdict in ${view.formatAddress(call.place)} uses ${formatFigure(value, 6)}, which is not a result of any of the tests behind it; the closest is ${formatFigure(closest, 6)}.`,
        why: "A factor or a deduction between the test's result and the verdict flatters the house.",
        todo: "Trace the cell back to the test's table and ask for the reason for each step.",
      },
    ];
  });
};
