import { formatCount } from "../words";
import type { Verification } from "./verify";

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
