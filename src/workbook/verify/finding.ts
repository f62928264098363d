/** error: the workbook contradicts itself or the method. warning: someone should check. note: for information, nothing to fix. */
export type Severity = "error" | "warning" | "note";

/** The kinds of finding, as a report names them. */
export type FindingKind =
  | "old result"
  | "blank cells matter"
  | "not evaluated"
  | "error value"
  | "formula overwritten"
  | "counted twice"
  | "formula missing"
  | "formula frozen to a number"
  | "formula breaks the pattern"
  | "range misses readings"
  | "ranges misaligned"
  | "wrong direction's cells"
  | "broken reference"
  | "circular reference"
  | "external link"
  | "hidden sheet"
  | "hidden readings"
  | "hidden cells"
  | "hidden value"
  | "readings of the example"
  | "excluded without a reason"
  | "excluded reading"
  | "shows #NAME?"
  | "verdict without validity"
  | "verdict on an invalid test"
  | "verdict typed in"
  | "verdict misreported"
  | "one direction decides"
  | "verdict depends on rounding"
  | "verdict depends on its rule"
  | "verdict not computed by PASSFAIL"
  | "result not from a test"
  | "hard-coded figure"
  | "result changes with the date"
  | "result altered"
  | "step without explanation"
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
  | "swapped temperatures"
  | "runs differ"
  | "chosen and not tested"
  | "weather differs"
  | "uncertainty too small"
  | "confidence level"
  | "one direction accepted"
  | "calibration density"
  | "room heights"
  | "flows adjusted"
  | "limit of another quantity"
  | "readings implausibly smooth"
  | "number as text"
  | "certificate date"
  | "settings differ"
  | "calculation settings"
  | "masked error"
  | "protection removed"
  | "name points elsewhere"
  | "method version"
  | "issue copy";

/** One thing a reviewer should know. */
export interface Finding {
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** Whether a verdict would be another without it. */
  readonly decides?: boolean;
  /** Where: Results!F28, Rooms!D7:D9, the name InternalVolume, the workbook. */
  readonly place: string;
  /** What was found, with the figures. */
  readonly what: string;
  /** Why it matters for the result. */
  readonly why: string;
  /** What to do about it. */
  readonly todo: string;
}

const order: readonly Severity[] = ["error", "warning", "note"];

/** Most severe first; within a severity those that turn a verdict, then in the order found. */
export function sortBySeverity(findings: readonly Finding[]): Finding[] {
  return order.flatMap((severity) => {
    const own = findings.filter((finding) => finding.severity === severity);
    return [...own.filter(({ decides }) => decides === true), ...own.filter(({ decides }) => decides !== true)];
  });
}
