import type { Review } from "./review";
import { listBrokenChecks } from "./checks/verdict-validity";

/** One kind of thing that a review looked at: how many there are, and how many of them are right. */
export interface Assurance {
  readonly what: string;
  readonly right: number;
  readonly of: number;
}

/** What was checked, with how much of it is right; kinds of which a workbook has none are left out. */
export function listAssurances(review: Review, explained: number): Assurance[] {
  const { view, tests, figures, judgements } = review;
  // Forms for further runs may be blank.
  const runs = review.runs.filter(({ readings }) => readings.length > 0);
  const formulas = view.evaluation.cells.filter(({ role }) => role === "formula");
  const evaluated = formulas.filter(({ outcome }) => outcome.evaluated).length;
  const computed = runs.filter((run) => figures.listFigures(run).length > 0);
  const readings = runs.reduce((sum, run) => sum + run.readings.length, 0);
  const valid = computed.filter((run) => listBrokenChecks(review, run).length === 0).length;
  const paired = new Set(tests.pairs.flat());
  const pairs = runs.filter((run) => paired.has(run)).length;
  return [
    { what: "formulas recomputed", right: evaluated, of: formulas.length },
    { what: "runs computed again by the method", right: computed.length, of: runs.length },
    { what: "readings checked for signs, units and copies", right: readings, of: readings },
    { what: "runs that meet the binding checks of their standard", right: valid, of: computed.length },
    { what: "runs compared with the other direction", right: pairs, of: runs.length },
    {
      what: "verdicts explained from the figures typed in, limit included",
      right: explained,
      of: judgements.length,
    },
  ].filter(({ of }) => of > 0);
}

/** What a reviewer has to look at elsewhere, since nothing in a workbook shows it. */
export const beyondPrograms: readonly string[] = [
  "whether the readings were taken in this house, on this day, with these instruments: ask for the gauge log and photographs",
  "readings invented with their scatter",
  "openings sealed that the standard leaves open, and doors inside that were shut",
  "lengths measured wrongly, as long as they go together",
  "whether the limit and the rule are those of the contract",
];
