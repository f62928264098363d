import type { SheetArea } from "../../formula/value";
import type { BookView } from "../book-view";
import { headingOf } from "../labels";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import type { ReviewedReading, WholeTest } from "../whole-tests";
import { counted, shown } from "../words";

const furthest = 40;
const headingRows = 3;

/** Readings that do not count, and whether the sheet says why. */
export const excludedReadings: Check = (review) => review.tests.flatMap((test) => ofTest(review, test));

function ofTest(review: Review, test: WholeTest): Finding[] {
  const { view } = review;
  const excluded = test.readings.filter(({ counts }) => !counts);
  const findings = excluded
    .filter((reading) => reasonFor(review, reading, test) === "")
    .map((reading): Finding => ({
      kind: "excluded without a reason",
      severity: "doubtful",
      place: view.address(reading.include ?? reading.pressure),
      what: `The reading of ${shown(view.value(reading.pressure))} Pa does not count, and its row gives no reason.`,
      why: "Leaving out readings without a reason can make any line fit, and any result pass.",
      todo: "Ask for the reason and have it written beside the reading, or let the reading count.",
    }));
  const explained = excluded.length - findings.length;
  const [first] = excluded;
  if (explained === 0 || !first) return findings;
  return [
    ...findings,
    {
      kind: "excluded reading",
      severity: "note",
      place: view.address(first.include ?? first.pressure),
      what: `${counted(explained, "reading")} of ${test.readings.length} in ${test.direction} ${explained === 1 ? "does" : "do"} not count, with a reason beside ${explained === 1 ? "it" : "them"}: ${shown(reasonFor(review, first, test))}.`,
      why: "An excluded reading is a judgement of the tester.",
      todo: "Read the reason, and see what the result is with the reading (column “without it”, or the mark set to yes).",
    },
  ];
}

/** A sentence in the reading's row: under a heading that asks for a reason, or any text of two words. */
function reasonFor({ view }: Review, { pressure, include }: ReviewedReading, { pressures }: WholeTest): string {
  if (include?.column === pressure.column) return "";
  const [first, last] = [-1, 1].map((step) => blockEnd(view, pressures, step));
  for (let column = first ?? 0; column <= (last ?? 0); column++) {
    const place = { ...pressure, column };
    if (!view.isTyped(place) || column === include?.column) continue;
    const text = view.text(place);
    if (text.length < 3) continue;
    const isAsked = /reason|remark|note|why|comment/i.test(headingOf(view, place));
    if (isAsked || /\p{L}{3,}.*\s.*\p{L}{2,}/u.test(text)) return text;
  }
  return "";
}

/** The last column of the readings' block to one side: beyond it a column is empty, its headings too. */
function blockEnd(view: BookView, { sheet, top, bottom, left }: SheetArea, step: number): number {
  const isEmpty = (column: number): boolean => {
    const strip = { sheet, top: Math.max(0, top - headingRows), bottom, left: column, right: column };
    return view.cellsIn(strip).every((place) => view.value(place) === null);
  };
  let column = left;
  while (column + step >= 0 && Math.abs(column + step - left) <= furthest && !isEmpty(column + step)) column += step;
  return column;
}
