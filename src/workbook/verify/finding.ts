/** wrong: the workbook says something that is not so. doubtful: a person must look. note: to be known, nothing to mend. */
export type Severity = "wrong" | "doubtful" | "note";

/** What can be found, in the words of a report. */
export type FindingKind =
  | "old result"
  | "blank cells matter"
  | "not evaluated"
  | "error value"
  | "typed over a formula"
  | "formula missing"
  | "result typed as a number"
  | "formula out of pattern"
  | "range misses readings"
  | "ranges out of step"
  | "wrong direction's cells"
  | "broken reference"
  | "circular reference"
  | "external link"
  | "hidden sheet"
  | "hidden readings"
  | "hidden cells"
  | "hidden value"
  | "excluded without a reason"
  | "excluded reading"
  | "shows #NAME?"
  | "verdict without validity"
  | "verdict over an invalid test"
  | "verdict typed in"
  | "verdict shown otherwise"
  | "one direction decides"
  | "verdict hangs on rounding"
  | "verdict hangs on its rule"
  | "verdict by a formula of its own"
  | "result of no test"
  | "figure in a formula"
  | "result hangs on the day"
  | "result altered"
  | "result typed in"
  | "size typed in"
  | "volume convention"
  | "limit changed"
  | "flow unit"
  | "flow basis"
  | "size unit"
  | "barometer unit"
  | "temperature unit"
  | "humidity unit"
  | "sign of the readings"
  | "swapped directions"
  | "sign of the baseline"
  | "copied readings"
  | "readings too good"
  | "number as text"
  | "certificate date"
  | "settings differ"
  | "calculation settings"
  | "masked error"
  | "protection removed"
  | "name points elsewhere"
  | "method version"
  | "issue copy";

/** One thing that a reviewer should know. */
export interface Finding {
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** Where: Results!F28, Rooms!D7:D9, the name InternalVolume, the workbook. */
  readonly place: string;
  /** What is so, with the figures. */
  readonly what: string;
  /** Why it matters for the result. */
  readonly why: string;
  /** What to do about it. */
  readonly todo: string;
}

const order: readonly Severity[] = ["wrong", "doubtful", "note"];

/** The gravest first; within a severity as they were found. */
export function sortBySeverity(findings: readonly Finding[]): Finding[] {
  return order.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
}
