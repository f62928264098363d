import type { SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { formatCount } from "../../formatting";

const leastBaselines = 5;

/** Baseline readings identical to those from another time, one by one. A baseline that a formula fetches from the other direction's sheet was measured once, and the sheet says so. */
export const findCopiedBaselines: Check = ({ view, runs }) =>
  runs.flatMap((one, index) => [
    ...compareBaselines(view, one.before, one.after, true),
    ...runs
      .slice(index + 1)
      .flatMap((other) => [
        ...compareBaselines(view, one.before, other.before, false),
        ...compareBaselines(view, one.after, other.after, false),
      ]),
  ]);

function compareBaselines(
  view: Inspector,
  one: SheetArea | undefined,
  other: SheetArea | undefined,
  isOneTest: boolean,
): Finding[] {
  if (!one || !other || view.formatArea(one) === view.formatArea(other)) return [];
  if (!isOneTest && !view.listCells(other).some((place) => view.isTyped(place))) return [];
  const [a, b] = [one, other].map((area) => view.listCells(area).flatMap((place) => view.readNumber(place) ?? []));
  if (!a || !b || a.length < leastBaselines || new Set(a).size < 3) return [];
  if (a.length !== b.length || a.some((value, index) => value !== b[index])) return [];
  return [
    {
      kind: "copied readings",
      severity: "warning",
      place: view.formatArea(other),
      what: `The ${formatCount(b.length, "baseline reading")} are identical to those in ${view.formatArea(one)}, one by one.`,
      why: "A copied baseline says nothing about the wind at the time.",
      todo: "Ask for the gauge log.",
    },
  ];
}
