import type { Verification } from "./verify";

/** What is reported about one workbook; `fault` where an internal error stopped the program, whether the workbook is readable or not. */
export type FileReport =
  | { readonly file: string; readonly status: "reviewed"; readonly verification: Verification }
  | { readonly file: string; readonly status: "unreadable"; readonly problem: string; readonly fault?: true };

export type Outcome = "nothing found" | "findings" | "not fully read";

/** Notes are to be known, not to be mended: they find nothing. */
export function judgeOutcome(report: FileReport): Outcome {
  if (report.status === "unreadable") return "not fully read";
  const { findings, formulaCells, evaluatedCells } = report.verification;
  if (evaluatedCells < formulaCells) return "not fully read";
  return findings.some(({ severity }) => severity !== "note") ? "findings" : "nothing found";
}

/** How many findings of a severity. */
export function countOf({ findings }: Verification, severity: string): number {
  return findings.filter((finding) => finding.severity === severity).length;
}

/** "2 wrong, 1 doubtful, 1 note", "nothing found". */
export function countInWords(verification: Verification): string {
  const parts = (["wrong", "doubtful", "note"] as const).flatMap((severity) => {
    const count = countOf(verification, severity);
    if (count === 0) return [];
    return [severity === "note" && count > 1 ? `${count} notes` : `${count} ${severity}`];
  });
  return parts.length === 0 ? "nothing found" : parts.join(", ");
}
