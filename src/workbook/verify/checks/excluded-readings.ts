import type { SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import { explainHiding } from "../visible";
import { readHeadingAbove, readWordsBefore } from "../../book/labels";
import { stepAlong, type Line } from "../like-formulas";
import type { Check, Review } from "../review";
import { runsAcross } from "../compared-tests";
import type { ReviewedReading, WholeTest } from "../../book/whole-tests";
import { formatCount, formatCellValue } from "../../words";

const furthest = 40;
const headingRows = 3;

/** Readings that do not count, and whether the sheet says why. */
export const findExcludedReadings: Check = (review) => review.tests.flatMap((test) => reviewTest(review, test));

function reviewTest(review: Review, test: WholeTest): Finding[] {
  const { view } = review;
  const excluded = test.readings.filter(({ counts }) => !counts);
  const findings = excluded
    .filter((reading) => findReason(review, reading, test) === "")
    .map((reading): Finding => ({
      kind: "excluded without a reason",
      severity: "doubtful",
      place: view.formatAddress(reading.include ?? reading.pressure),
      what: `The reading of ${formatCellValue(view.readValue(reading.pressure))} Pa does not count, and its row gives no reason.`,
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
      place: view.formatAddress(first.include ?? first.pressure),
      what: `${formatCount(explained, "reading")} of ${test.readings.length} in ${test.direction} ${explained === 1 ? "does" : "do"} not count, with a reason beside ${explained === 1 ? "it" : "them"}: ${formatCellValue(findReason(review, first, test))}.`,
      why: "An excluded reading is a judgement of the tester.",
      todo: "Read the reason, and see what the result is with the reading (column “without it”, or the mark set to yes).",
    },
  ];
}

/** A sentence in the reading's row, or in its column where the readings run across: under a heading that asks for a reason, or any text of two words. */
function findReason(review: Review, { pressure, include }: ReviewedReading, { pressures }: WholeTest): string {
  const { view } = review;
  const line = runsAcross(pressures) ? "column" : "row";
  const [first, last] = [-1, 1].map((step) => findBlockEnd(view, pressures, line, step));
  const mark = include && include[line === "row" ? "column" : "row"];
  for (let steps = first ?? 0; steps <= (last ?? 0); steps++) {
    const place = stepAlong(pressure, line, steps);
    // A reason that cannot be seen is none.
    if (
      !view.isTyped(place) ||
      explainHiding(review, place) !== undefined ||
      place[line === "row" ? "column" : "row"] === mark
    )
      continue;
    const text = view.readText(place);
    if (text.length < 3) continue;
    const asked = line === "row" ? readHeadingAbove(view, place) : readWordsBefore(view, place);
    if (/reason|remark|note|why|comment/i.test(asked) || /\p{L}{3,}.*\s.*\p{L}{2,}/u.test(text)) return text;
  }
  return "";
}

/** How far the readings' block reaches to one side: beyond it a column (or row) is empty, its headings too. */
function findBlockEnd(view: Inspector, area: SheetArea, line: Line, step: number): number {
  const { sheet, top, left, bottom, right } = area;
  const isEmpty = (steps: number): boolean => {
    const strip =
      line === "row"
        ? { sheet, top: Math.max(0, top - headingRows), bottom, left: left + steps, right: left + steps }
        : { sheet, top: top + steps, bottom: top + steps, left: Math.max(0, left - headingRows), right };
    return view.listCells(strip).every((place) => view.readValue(place) === null);
  };
  const start = line === "row" ? left : top;
  let steps = 0;
  while (start + steps + step >= 0 && Math.abs(steps + step) <= furthest && !isEmpty(steps + step)) steps += step;
  return steps;
}
