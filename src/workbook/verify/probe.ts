import type { Place } from "../book/area";
import { evaluateBook } from "../formula/evaluate";
import type { Outcome } from "../formula/evaluation";
import { limitsAfter } from "../formula/values/work";
import { cellKey, type Cell } from "../model";

import type { Review } from "./review";

/** A formula to be evaluated as if it stood in a cell. */
export interface Probe {
  readonly place: Place;
  readonly text: string;
}

/** What the cells would give with other formulas in them; the book stays as it is. */
export function probed(
  { book, addIn, view }: Pick<Review, "book" | "addIn" | "view">,
  probes: readonly Probe[],
): (Outcome | undefined)[] {
  if (probes.length === 0) return [];
  const sheets = book.sheets.map((sheet, index) => {
    const ofSheet = probes.filter(({ place }) => place.sheet === index);
    if (ofSheet.length === 0) return sheet;
    const cells = new Map(sheet.cells);
    for (const { place, text } of ofSheet) {
      const key = cellKey(place.row, place.column);
      const cell = cells.get(key);
      const { row, column } = place;
      const base: Cell = cell ?? { row, column, value: null, format: "General" };
      cells.set(key, { ...base, formula: { ...base.formula, text } });
    }
    return { ...sheet, cells };
  });
  const evaluation = evaluateBook({ ...book, sheets }, { addIn, limits: limitsAfter(view.evaluation.work) });
  return probes.map(({ place }) => evaluation.outcome(place.sheet, place.row, place.column));
}
