import type { Place } from "../book/area";
import type { CellValue } from "../model";
import { evaluateProbes, type Probe, type Review } from "./review";
import { saysPass } from "./verdicts";

/** What becomes of the first pass that does not stay one with other formulas in some cells; undefined if all stay. */
export function findTurnedPass(
  review: Review,
  changes: readonly Probe[],
): { readonly place: Place; readonly value: CellValue } | undefined {
  const { view, verdicts } = review;
  const passes = verdicts.flatMap(({ cells }) =>
    cells.flatMap(({ place, word }) => {
      const text = view.findCell(place)?.formula?.text;
      return text !== undefined && saysPass(word) ? [{ place, text }] : [];
    }),
  );
  if (changes.length === 0 || passes.length === 0) return undefined;
  const outcomes = evaluateProbes(review, [...passes, ...changes]);
  for (const [index, { place }] of passes.entries()) {
    const outcome = outcomes[index];
    if (outcome?.evaluated === true && !(typeof outcome.value === "string" && saysPass(outcome.value)))
      return { place, value: outcome.value };
  }
  return undefined;
}
