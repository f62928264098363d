import type { Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { readResult } from "../../book/tests/entered-runs";
import { formatFigure, formatList } from "../../formatting";

const symbols = ["n50", "q50", "qE50", "qF50", "n_pr", "q_pr", "qE_pr", "qF_pr"];

/** The verdict uses the better of two directions although both were tested. */
export const checkDirectionChoice: Check = (review) => {
  const { view, verdicts } = review;
  if (acceptsOneDirection(view)) return [];
  return verdicts.flatMap(({ call, result }): Finding[] => {
    const place = result?.area && view.listCells(result.area)[0];
    const value = place && view.readNumber(place);
    const found = place === undefined || value === undefined ? undefined : findBetterDirection(review, value);
    if (!found || !place) return [];
    const [a, b] = found;
    return [
      {
        kind: "one direction decides",
        severity: "warning",
        place: view.formatAddress(call.place),
        what: `The verdict uses ${formatFigure(a)} in ${view.formatAddress(place)}${describeRepeats(view, place, a)}, the better of two directions (the other gives ${formatFigure(b)}); their mean is ${formatFigure((a + b) / 2)}.`,
        why: "Most programmes require the mean of both; the better one flatters the house.",
        todo: "Use the mean, or name the programme that accepts one direction.",
      },
    ];
  });
};

/** Where a mean takes the same direction twice, the cells that hold it. */
function describeRepeats(view: Inspector, place: Place, value: number): string {
  const same = view
    .listPrecedents(place)
    .flatMap((area) => view.listCells(area))
    .filter((cell) => !view.findOwner(cell) && view.readNumber(cell) === value);
  return same.length > 1 ? ` (${formatList(same.map((cell) => view.formatAddress(cell)))} all hold it)` : "";
}

/** Both directions' values of the quantity for which the result is the smaller of the two; runs of a direction are averaged first. */
function findBetterDirection(review: Review, value: number): readonly [number, number] | undefined {
  const { pairs } = review.tests;
  for (const pair of pairs) {
    const house = new Set(pairs.filter((other) => other.some((run) => pair.includes(run))).flat());
    for (const symbol of symbols) {
      const [one, other] = pair.map(({ direction }) => {
        const runs = [...house].filter((run) => run.direction === direction);
        const values = runs.flatMap((run) => readResult(review, run, symbol) ?? []);
        return values.length === 0 ? undefined : values.reduce((sum, run) => sum + run, 0) / values.length;
      });
      if (one === undefined || other === undefined || Math.abs(one / other - 1) < 1e-6) continue;
      const [small, large] = [Math.min(one, other), Math.max(one, other)];
      if (Math.abs(value / small - 1) <= 1e-9) return [small, large];
    }
  }
  return undefined;
}

/** The criterion itself says that one direction is enough. */
function acceptsOneDirection(view: Inspector): boolean {
  return view.book.names
    .filter(({ name }) => /directions?$/i.test(name))
    .some(({ text }) => {
      const area = view.findNamedArea(text);
      const place = area && view.listCells(area)[0];
      return place !== undefined && /^(either|depressurization|pressurization|one)/i.test(view.readText(place));
    });
}
