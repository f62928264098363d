import type { Place } from "../../book/area";
import { isDateFormat } from "numfmt";

import type { Check, Review } from "../review";
import { formatCount, formatList } from "../../formatting";

/** More digits than an instrument shows or anyone types; Excel's results have up to seventeen. */
const tooManyDigits = 14;

/** Typed numbers in the chain with all the digits of a computed result: a formula frozen to its value. */
export const findFrozenFormulas: Check = (review) => {
  const { view } = review;
  const frozen = [...review.chain.values()].filter((place) => isFrozen(review, place));
  frozen.sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
  const [first] = frozen;
  if (!first) return [];
  return [
    {
      kind: "formula frozen to a number",
      severity: "error",
      place: view.formatAddress(first),
      what: `${formatCount(frozen.length, "cell")} behind the result hold typed numbers of ${tooManyDigits} digits or more, as only a formula produces (${formatList(frozen.map((place) => view.formatAddress(place)))}).`,
      why: "A frozen result does not change with the readings.",
      todo: "Ask for the formula, or restore it, and see whether the value changes.",
    },
  ];
};

/** Input cells may hold converted data with all their digits. */
function isFrozen({ view, state }: Review, place: Place): boolean {
  const cell = view.findCell(place);
  if (typeof cell?.value !== "number" || !view.isTyped(place) || isDateFormat(cell.format)) return false;
  const isInput = state.sheets[place.sheet]?.styleOf(place.row, place.column).locked === false;
  return !isInput && countDigits(cell.value) >= tooManyDigits;
}

function countDigits(value: number): number {
  return String(Math.abs(value))
    .replace(/e.*$/, "")
    .replace(".", "")
    .replace(/^0+|0+$/g, "").length;
}
