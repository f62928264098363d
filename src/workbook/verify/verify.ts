import type { OpenedWorkbook } from "../file/open";
import type { AddInRegistry } from "../formula/calls/add-in";
import { formatCount } from "../formatting";
import { type Assurance, listAssurances } from "./assurance";
import { type CausedFinding, numberCauses } from "./causes";
import { checks } from "./checks/index";
import { findUnexplainedSteps } from "./unexplained-steps";
import { sortBySeverity, type Finding } from "./finding";
import { prepareReview, type Review } from "./review";

/** The review of one workbook. */
export interface Verification {
  readonly findings: readonly CausedFinding[];
  readonly formulaCells: number;
  readonly evaluatedCells: number;
  readonly addInCells: number;
  /** Tests found in the workbook, one per direction, with their pressure cells. */
  readonly tests: readonly { readonly direction: string; readonly pressures: string }[];
  readonly verdicts: readonly { readonly place: string; readonly word: string }[];
  /** What was checked, with how much of it is right. */
  readonly checked: readonly Assurance[];
}

/**
 * Reviews a workbook from someone else: recomputes it under both conventions for blank cells and runs every check. Changes nothing.
 * @param now The time for cells that read the clock.
 * @param watch Called as the checks are made, for those who wait.
 */
export function verifyWorkbook(
  opened: OpenedWorkbook,
  addIn: AddInRegistry,
  now: Date,
  watch: (done: number, of: number) => void = () => undefined,
): Verification {
  const review = prepareReview(opened, addIn, now);
  const ofChecks = checks.flatMap((check, index) => {
    watch(index + 1, checks.length + 1);
    return check(review);
  });
  const { steps, explained } = findUnexplainedSteps(review, ofChecks);
  const findings = numberCauses(review.view, sortBySeverity(removeRepeats([...ofChecks, ...steps])));
  return { findings, ...countParts(review), checked: listAssurances(review, explained) };
}

/** Kinds that may occur several times at one place, each needing its own remedy. */
const severalAtOnce: ReadonlySet<Finding["kind"]> = new Set([
  "not evaluated",
  "settings differ",
  "calculation settings",
]);

/** The same place is reported once for the same reason, by the first check that finds it. */
function removeRepeats(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter(({ kind, place, what }) => {
    const key = severalAtOnce.has(kind) ? `${kind} ${place} ${what}` : `${kind} ${place}`;
    return !seen.has(key) && seen.add(key);
  });
}

function countParts({ view, runs, verdicts }: Review): Omit<Verification, "findings" | "checked"> {
  const formulas = view.evaluation.cells.filter(({ role }) => role === "formula");
  return {
    formulaCells: formulas.length,
    evaluatedCells: formulas.filter(({ outcome }) => outcome.evaluated).length,
    addInCells: view.evaluation.addIn.cells,
    tests: runs.map(({ direction, pressures }) => ({ direction, pressures: view.formatArea(pressures) })),
    verdicts: verdicts.flatMap(({ cells }) =>
      cells.map(({ place, word }) => ({ place: view.formatAddress(place), word })),
    ),
  };
}

/** The report on one workbook; `fault` if an internal error stopped the program, whether or not the workbook is readable. */
export type FileReport =
  | { readonly file: string; readonly status: "reviewed"; readonly verification: Verification }
  | { readonly file: string; readonly status: "unreadable"; readonly problem: string; readonly fault?: true };

export type Outcome = "nothing found" | "findings" | "not fully read";

/** Notes are for information and do not count as findings. */
export function judgeOutcome(report: FileReport): Outcome {
  if (report.status === "unreadable") return "not fully read";
  const { findings, formulaCells, evaluatedCells } = report.verification;
  if (evaluatedCells < formulaCells) return "not fully read";
  return findings.some(({ severity }) => severity !== "note") ? "findings" : "nothing found";
}

/** The number of findings of one severity. */
export function countOf({ findings }: Verification, severity: string): number {
  return findings.filter((finding) => finding.severity === severity).length;
}

/** "2 errors, 1 warning, 1 note", "nothing found". */
export function countInWords(verification: Verification): string {
  const parts = (["error", "warning", "note"] as const).flatMap((severity) => {
    const count = countOf(verification, severity);
    if (count === 0) return [];
    return [formatCount(count, severity)];
  });
  return parts.length === 0 ? "nothing found" : parts.join(", ");
}
