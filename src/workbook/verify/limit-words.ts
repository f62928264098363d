import { isSingleCell, type Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import type { Operand } from "./judgements";

/** Units by which a limit names its quantity, as reports write them: air changes, and flows per area. */
export const unitOfLimits = {
  n: /(^|[\s([])(1\/h|h-1|h⁻¹|ach(50)?|1\/hr)([\s)\],.]|$)/i,
  perArea: /m[³3]\/\(?\s*h[·*. ]?\s*m[²2]\)?|m[³3]\/h\/m[²2]|cfm\/ft[²2]|l\/\(?s[·*. ]?m[²2]\)?/i,
} as const;

/** The cell of a limit that has one of its own. */
export function findLimitCell({ area }: Operand): Place | undefined {
  return area && isSingleCell(area) ? { sheet: area.sheet, row: area.top, column: area.left } : undefined;
}

/** What a sheet says about a limit: the unit to its right and the words before it; "" where the limit has no cell. */
export function readLimitWords(view: Inspector, limit: Operand): string {
  const place = findLimitCell(limit);
  if (!place) return "";
  return [view.readText({ ...place, column: place.column + 1 }), view.labels.readWordsBefore(place)].join(" ");
}

/** Symbols and units by which a limit says which quantity it limits. */
const namesOfLimits: readonly (readonly [words: RegExp, quantities: readonly string[]])[] = [
  [/(?<![\p{L}\d])n_?50(?!\d)/iu, ["n50"]],
  [/(?<![\p{L}\d])q_?E_?50(?!\d)/iu, ["qE50"]],
  [/(?<![\p{L}\d])q_?F_?50(?!\d)/iu, ["qF50"]],
  [/(?<![\p{L}\d])q_?50(?!\d)/iu, ["q50"]],
  [unitOfLimits.n, ["n50", "n_pr"]],
  [unitOfLimits.perArea, ["qE50", "qF50", "qE_pr", "qF_pr"]],
];

/** The quantities that a limit may be for, by the words and the unit beside it; none where these do not say. */
export function findLimitedQuantities(view: Inspector, limit: Operand): readonly string[] {
  const stated = readLimitWords(view, limit);
  return namesOfLimits.find(([words]) => words.test(stated))?.[1] ?? [];
}
