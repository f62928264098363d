import type { Place } from "../../book/area";
import { isDateFormat } from "numfmt";

import type { Check, Review } from "../review";
import { formatCount, formatList } from "../../words";

/** No instrument shows and nobody types so many; Excel's own results have up to seventeen. */
const tooManyDigits = 14;

/** Numbers with all the digits of a computed result that are typed into the chain: a formula was frozen to its value. */
export const findLongConstants: Check = (review) => {
  const { view } = review;
  const frozen = [...review.chain.values()].filter((place) => isFrozen(review, place));
  frozen.sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
  const [first] = frozen;
  if (!first) return [];
  return [
    {
      kind: "result typed as a number",
      severity: "wrong",
      place: view.formatAddress(first),
      what: `${formatCount(frozen.length, "cell")} that the result rests on hold typed numbers of ${tooManyDigits} digits or more, as only a formula gives (${formatList(frozen.map((place) => view.formatAddress(place)))}).`,
      why: "A result frozen to its old value stays when the readings change.",
      todo: "Ask for the formula, or put it back, and see whether the value stays.",
    },
  ];
};

/** Cells that are made to be typed into may hold converted data with all their digits. */
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
