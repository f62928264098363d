import type { SheetArea } from "../../formula/value";
import type { BookView, Place } from "../book-view";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import type { ReviewedReading, WholeTest } from "../whole-tests";
import { counted } from "../words";

const leastReadings = 4;
const leastBaselines = 5;
const leastShare = 0.6;

/** Readings of one test that stand in another one too: two measurements never agree to the last digit throughout. */
export const copiedReadings: Check = (review) => {
  const findings: Finding[] = [];
  for (const [index, one] of review.tests.entries()) {
    for (const other of review.tests.slice(index + 1)) findings.push(...comparison(review, one, other));
    findings.push(...baselines(review, [one.before, one.after]));
  }
  return findings;
};

function comparison(review: Review, one: WholeTest, other: WholeTest): Finding[] {
  const { view } = review;
  if (view.addressOfArea(one.pressures) === view.addressOfArea(other.pressures)) return [];
  const pairs = one.readings.flatMap((reading, index) => {
    const partner = other.readings[index];
    return partner ? [[reading, partner] as const] : [];
  });
  const [flows, pressures] = [
    pairs.filter(([a, b]) => isSame(rowInputs(view, a), rowInputs(view, b))),
    pairs.filter(([a, b]) => isSamePressure(view, a, b)),
  ];
  // Whole pascals are often what was aimed at, and both directions may aim at the same.
  const telling = pressures.filter(([a]) => !Number.isInteger(view.number(a.pressure)));
  const enough = (count: number): boolean => count >= leastReadings && count >= leastShare * pairs.length;
  const findings = [...baselines(review, [one.before, other.before]), ...baselines(review, [one.after, other.after])];
  if (!enough(flows.length) && !enough(telling.length)) return findings;
  const what = enough(flows.length)
    ? enough(pressures.length)
      ? "pressures and flow figures"
      : "flow figures"
    : "pressures";
  const count = enough(flows.length) ? flows.length : telling.length;
  return [
    {
      kind: "copied readings",
      severity: "wrong",
      place: view.addressOfArea(other.pressures),
      what: `${counted(count, "reading")} of ${pairs.length} have the same ${what} as ${one.direction} in ${view.addressOfArea(one.pressures)}, to the last digit.`,
      why: "Two series never agree throughout: one of them was copied, not measured.",
      todo: "Ask for the gauge's record of both series.",
    },
    ...findings,
  ];
}

function isSamePressure(view: BookView, one: ReviewedReading, other: ReviewedReading): boolean {
  const [a, b] = [view.number(one.pressure), view.number(other.pressure)];
  return a !== undefined && b !== undefined && Math.abs(a) === Math.abs(b);
}

/** The typed figures that a reading's flow comes from: the flow itself, or the fan pressure beside it. */
function rowInputs(view: BookView, { flows }: ReviewedReading): number[] {
  return flows.flatMap((flow): number[] => {
    const own = view.number(flow);
    if (view.isTyped(flow)) return own === undefined ? [] : [own];
    return view.precedents(flow).flatMap((area) => {
      const beside: Place = { sheet: area.sheet, row: flow.row, column: area.left };
      const isInRow = flow.row >= area.top && flow.row <= area.bottom && area.left === area.right;
      const value = isInRow && view.isTyped(beside) ? view.number(beside) : undefined;
      return value === undefined ? [] : [value];
    });
  });
}

const isSame = (one: readonly number[], other: readonly number[]): boolean =>
  one.length > 0 && one.length === other.length && one.every((value, index) => value === other[index]);

function baselines({ view }: Review, [one, other]: readonly [SheetArea | undefined, SheetArea | undefined]): Finding[] {
  if (!one || !other || view.addressOfArea(one) === view.addressOfArea(other)) return [];
  const [a, b] = [one, other].map((area) => view.cellsIn(area).flatMap((place) => view.number(place) ?? []));
  if (!a || !b || a.length < leastBaselines || !isSame(a, b) || new Set(a).size < 3) return [];
  return [
    {
      kind: "copied readings",
      severity: "doubtful",
      place: view.addressOfArea(other),
      what: `The ${counted(b.length, "baseline reading")} are those of ${view.addressOfArea(one)}, one by one.`,
      why: "A baseline that was copied says nothing of the wind at its own time.",
      todo: "Ask for the gauge's record.",
    },
  ];
}
