import { placeKey } from "../../book/area";
import type { Finding } from "../finding";
import type { EnteredRun } from "../../book/tests/entered-runs";
import { limitedQuantities } from "../../book/tests/method-figures";
import { measureGap, isSame, listResults } from "../compared-tests";
import { listQuantities } from "../result-steps";
import type { Check, Review } from "../review";
import { formatFigure } from "../../formatting";

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
    // Another quantity of the test may have the same figure by chance, where volume and envelope area are alike.
    const judgement = review.judgements.find(({ verdict }) => verdict?.call === call);
    const symbols = judgement ? listQuantities(review, judgement) : limitedQuantities;
    const results = symbols.flatMap((symbol) => listResults(review, own, symbol).map((known) => ({ symbol, known })));
    const [first] = results;
    if (!first || results.some(({ known }) => isSame(known, value))) return [];
    const closest = results.reduce(
      (best, one) => (measureGap(one.known, value) < measureGap(best.known, value) ? one : best),
      first,
    );
    if (value >= closest.known || measureGap(closest.known, value) > near) return [];
    return [
      {
        kind: "result altered",
        severity: "warning",
        place: view.formatAddress(place),
        what: `The verdict in ${view.formatAddress(call.place)} uses ${formatFigure(value, 6)}, which is not a result of any of the tests behind it; the closest is ${closest.symbol} = ${formatFigure(closest.known, 6)}${describeUnit(review, own, closest.symbol)}.`,
        why: "A factor or a deduction between the test's result and the verdict flatters the house.",
        todo: "Trace the cell back to the test's table and ask for the reason for each step.",
      },
    ];
  });
};

function describeUnit({ figures }: Review, runs: readonly EnteredRun[], symbol: string): string {
  const unit = runs.flatMap((run) => figures.listFigures(run)).find((figure) => figure.symbol === symbol)?.unit ?? "";
  return unit === "" ? "" : ` ${unit}`;
}
