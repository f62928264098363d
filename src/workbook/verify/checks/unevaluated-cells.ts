import type { Check } from "../review";
import { formatCount, formatList } from "../../formatting";

const mostReasons = 12;

/** Cells that cannot be recomputed here, by reason, with a count of their dependents. */
export const findUnevaluatedCells: Check = ({ view }) => {
  const groups = new Map<string, { own: string[]; dependent: number }>();
  for (const { address, outcome, role } of view.evaluation.cells) {
    if (outcome.evaluated || role !== "formula") continue;
    const group = groups.get(outcome.reason) ?? { own: [], dependent: 0 };
    groups.set(outcome.reason, group);
    if (outcome.origin === undefined) group.own.push(address);
    else group.dependent++;
  }
  return [...groups].slice(0, mostReasons).map(([reason, { own, dependent }]) => ({
    kind: "not evaluated",
    severity: "warning",
    place: own[0] ?? "the workbook",
    what: `Not recomputed: ${reason} (${formatList(own)}${dependent > 0 ? `; ${formatCount(dependent, "cell")} ${dependent === 1 ? "depends" : "depend"} on it` : ""}).`,
    why: "Values not recomputed are not confirmed.",
    todo: "Check these cells by hand or in Excel.",
  }));
};
