import type { Place } from "../book/area";
import { evaluateBook } from "../formula/evaluate";
import type { Outcome } from "../formula/evaluation";
import { reduceLimits } from "../formula/work-limits";
import { buildCellKey, type Cell, type CellValue } from "../model";
import type { Review } from "./review";
import { saysPass } from "./verdicts";

/** A formula to be evaluated as if it were in a cell. */
interface Probe {
  readonly place: Place;
  readonly text: string;
}

/** What the cells would give with other formulas in them; leaves the book unchanged. */
export function evaluateProbes(
  { book, addIn, view }: Pick<Review, "book" | "addIn" | "view">,
  probes: readonly Probe[],
): (Outcome | undefined)[] {
  if (probes.length === 0) return [];
  const sheets = book.sheets.map((sheet, index) => {
    const ofSheet = probes.filter(({ place }) => place.sheet === index);
    if (ofSheet.length === 0) return sheet;
    const cells = new Map(sheet.cells);
    for (const { place, text } of ofSheet) {
      const key = buildCellKey(place.row, place.column);
      const cell = cells.get(key);
      const { row, column } = place;
      const base: Cell = cell ?? { row, column, value: null, format: "General" };
      cells.set(key, { ...base, formula: { ...base.formula, text } });
    }
    return { ...sheet, cells };
  });
  const { spills, work } = view.evaluation;
  const only = probes.map(({ place }) => place);
  const evaluation = evaluateBook({ ...book, sheets }, { addIn, limits: reduceLimits(work), only, spills });
  return probes.map(({ place }) => evaluation.outcome(place.sheet, place.row, place.column));
}

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
