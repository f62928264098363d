import type { OpenedWorkbook } from "../file/open";
import type { AddInRegistry } from "../formula/calls/add-in";
import { checks } from "./checks/index";
import { sortBySeverity, type Finding } from "./finding";
import { prepareReview, type Review } from "./review";

/** What a review of one workbook gives. */
export interface Verification {
  readonly findings: readonly Finding[];
  readonly formulaCells: number;
  readonly evaluatedCells: number;
  readonly addInCells: number;
  /** Tests found in the workbook, a direction each, with the cells of their pressures. */
  readonly tests: readonly { readonly direction: string; readonly pressures: string }[];
  readonly verdicts: readonly { readonly place: string; readonly word: string }[];
}

/**
 * Reviews a workbook that someone else made: recomputes it under both conventions for blank cells and asks every check. Nothing is changed.
 * @param now The clock for cells that ask for it.
 */
export function verifyWorkbook(opened: OpenedWorkbook, addIn: AddInRegistry, now: Date): Verification {
  const review = prepareReview(opened, addIn, now);
  const findings = checks.flatMap((check) => check(review));
  return { findings: sortBySeverity(removeRepeats(findings)), ...countParts(review) };
}

/** Kinds of which one place may have several, each of them another thing to do. */
const severalAtOnce: ReadonlySet<Finding["kind"]> = new Set([
  "not evaluated",
  "settings differ",
  "calculation settings",
]);

/** The same place for the same reason is reported once, by the check that comes first. */
function removeRepeats(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter(({ kind, place, what }) => {
    const key = severalAtOnce.has(kind) ? `${kind} ${place} ${what}` : `${kind} ${place}`;
    return !seen.has(key) && seen.add(key);
  });
}

function countParts({ view, tests, verdicts }: Review): Omit<Verification, "findings"> {
  const formulas = view.evaluation.cells.filter(({ role }) => role === "formula");
  return {
    formulaCells: formulas.length,
    evaluatedCells: formulas.filter(({ outcome }) => outcome.evaluated).length,
    addInCells: view.evaluation.addIn.cells,
    tests: tests.map(({ direction, pressures }) => ({ direction, pressures: view.formatArea(pressures) })),
    verdicts: verdicts.flatMap(({ cells }) =>
      cells.map(({ place, word }) => ({ place: view.formatAddress(place), word })),
    ),
  };
}
