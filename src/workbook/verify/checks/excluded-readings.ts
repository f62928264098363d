import type { SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import { explainHiding } from "../visible";
import { stepAlong, type Line } from "../../book/like-formulas";
import type { Check, Review } from "../review";
import { findTurnedPass } from "../probes";
import { type EnteredReading, type EnteredRun, runsAcross } from "../../book/tests/entered-runs";
import { formatCount, formatCellValue } from "../../formatting";

const furthest = 40;
const headingRows = 3;

/** Readings that are excluded, and whether the sheet says why. */
export const findExcludedReadings: Check = (review) => review.runs.flatMap((run) => reviewRun(review, run));

function reviewRun(review: Review, run: EnteredRun): Finding[] {
  const { view } = review;
  const excluded = run.readings.filter(({ counts }) => !counts);
  const findings = excluded
    .filter((reading) => findReason(review, reading, run) === "")
    .map((reading): Finding => ({
      kind: "excluded without a reason",
      severity: "warning",
      place: view.formatAddress(reading.include ?? reading.pressure),
      what: `The reading of ${formatCellValue(view.readValue(reading.pressure))} Pa is excluded, and its row gives no reason.`,
      why: "Excluding readings without a reason can make any line fit and any result pass.",
      todo: "Ask for the reason and have it written next to the reading, or include the reading.",
    }));
  const explained = excluded.filter((reading) => findReason(review, reading, run) !== "");
  const [first] = explained;
  if (!first) return findings;
  const turned = findTurnedVerdict(review, explained);
  return [
    ...findings,
    {
      kind: "excluded reading",
      severity: turned === undefined ? "note" : "warning",
      place: view.formatAddress(first.include ?? first.pressure),
      what: `${formatCount(explained.length, "reading")} of ${run.readings.length} in ${run.direction} ${explained.length === 1 ? "is" : "are"} excluded, with a reason given: ${formatCellValue(findReason(review, first, run))}.${turned ?? ""}`,
      why: "Excluding a reading is the tester's judgement.",
      todo: "Read the reason, and see how the result changes with the reading included (column “without it”, or set its mark to yes).",
    },
  ];
}

/** What becomes of a pass with these readings included, where it does not stay one. */
function findTurnedVerdict(review: Review, excluded: readonly EnteredReading[]): string | undefined {
  const marks = excluded.flatMap(({ include }) => include ?? []);
  const turned = findTurnedPass(
    review,
    marks.map((place) => ({ place, text: '"yes"' })),
  );
  if (!turned) return undefined;
  return ` With ${marks.length === 1 ? "it" : "them"} included, ${review.view.formatAddress(turned.place)} would give ${formatCellValue(turned.value)} instead of a pass.`;
}

/** Text, typed or given by a formula, in the reading's row, or in its column if the readings run across: under a heading that asks for a reason, or any text of two words. */
function findReason(
  review: Review,
  { pressure, include }: EnteredReading,
  { pressures, readings }: EnteredRun,
): string {
  const { view } = review;
  const line = runsAcross(pressures) ? "column" : "row";
  const [first, last] = [-1, 1].map((step) => findBlockEnd(view, pressures, line, step));
  const mark = include && include[line === "row" ? "column" : "row"];
  for (let steps = first ?? 0; steps <= (last ?? 0); steps++) {
    const place = stepAlong(pressure, line, steps);
    // A hidden reason does not count.
    if (explainHiding(review, place) !== undefined || place[line === "row" ? "column" : "row"] === mark) continue;
    const text = view.readText(place);
    if (text.length < 3) continue;
    // What a formula says of a reading that counts too is no reason to exclude one.
    const isSaidOfCounted = ({ counts, pressure: other }: EnteredReading): boolean =>
      counts && view.readText({ ...place, [line]: other[line] }) === text;
    if (!view.isTyped(place) && readings.some(isSaidOfCounted)) continue;
    // The reason of a reading before this one must not pass for the heading: the block's first line has none before it.
    const atStart = line === "row" ? { ...place, row: pressures.top } : { ...place, column: pressures.left };
    const asked = [place, atStart]
      .map((at) => (line === "row" ? view.labels.readWordsAbove(at) : view.labels.readWordsBefore(at)))
      .join(" ");
    if (/reason|remark|note|why|comment/i.test(asked) || /\p{L}{3,}.*\s.*\p{L}{2,}/u.test(text)) return text;
  }
  return "";
}

/** How far the block of readings extends to one side: up to the first column (or row) that is empty, heading included. */
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
