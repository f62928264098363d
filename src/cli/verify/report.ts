import type { Verification } from "../../workbook/index";
import { faultCode } from "../shared/run-program";

/** What is reported about one workbook; `fault` where an internal error stopped the program, whether the workbook is readable or not. */
export type FileReport =
  | { readonly file: string; readonly status: "reviewed"; readonly verification: Verification }
  | { readonly file: string; readonly status: "unreadable"; readonly problem: string; readonly fault?: true };

export type Outcome = "nothing found" | "findings" | "not fully read";

/** Notes are to be known, not to be mended: they find nothing. */
export function outcomeOf(report: FileReport): Outcome {
  if (report.status === "unreadable") return "not fully read";
  const { findings, formulaCells, evaluatedCells } = report.verification;
  if (evaluatedCells < formulaCells) return "not fully read";
  return findings.some(({ severity }) => severity !== "note") ? "findings" : "nothing found";
}

/** 0 nothing wrong, 1 findings, 2 a workbook unreadable or not recomputed in full, 3 internal error; the greatest wins. */
export function exitCodeOf(reports: readonly FileReport[]): 0 | 1 | 2 | typeof faultCode {
  if (reports.some((report) => report.status === "unreadable" && report.fault)) return faultCode;
  const outcomes = reports.map(outcomeOf);
  if (outcomes.includes("not fully read")) return 2;
  return outcomes.includes("findings") ? 1 : 0;
}

/** How many findings of a severity. */
export function countOf({ findings }: Verification, severity: string): number {
  return findings.filter((finding) => finding.severity === severity).length;
}

/** "2 wrong, 1 doubtful, 1 note", "nothing found". */
export function countsInWords(verification: Verification): string {
  const parts = (["wrong", "doubtful", "note"] as const).flatMap((severity) => {
    const count = countOf(verification, severity);
    if (count === 0) return [];
    return [severity === "note" && count > 1 ? `${count} notes` : `${count} ${severity}`];
  });
  return parts.length === 0 ? "nothing found" : parts.join(", ");
}
