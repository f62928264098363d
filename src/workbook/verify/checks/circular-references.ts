import type { Check } from "../review";

export const findCircularReferences: Check = ({ view }) =>
  view.evaluation.cycles.map((cycle) => ({
    kind: "circular reference",
    severity: "error",
    place: cycle[0] ?? "the workbook",
    what: `These cells depend on each other: ${[...cycle.slice(0, 8), cycle[0] ?? ""].join(" → ")}.`,
    why: "Excel shows 0, or whatever its last iteration produced.",
    todo: "Break the circle: one of these formulas should read an input instead.",
  }));
