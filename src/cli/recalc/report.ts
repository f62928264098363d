import type { CellErrors, CellPatch, CellValue, Difference, Evaluation, Summary, WorkDone } from "../../workbook/index";
import { faultCode } from "../shared/run-program";

/** What is reported about one workbook, before it is put into words. */
export type Report = UnreadableReport | RecalculatedReport;

export interface UnreadableReport {
  readonly file: string;
  readonly status: "unreadable";
  readonly problem: string;
  /** True if an internal error stopped the program, whether or not the workbook is readable. */
  readonly fault?: true;
}

export interface RecalculatedReport {
  readonly file: string;
  readonly status: "equal" | "different" | "incomplete";
  readonly formulaCells: number;
  readonly evaluatedCells: number;
  readonly addIn: Evaluation["addIn"];
  /** What the calculation took, if a cell was abandoned for it. */
  readonly work?: WorkDone;
  readonly cautions: readonly string[];
  /** Cells whose stored value is not what the formula gives, before anything was set. */
  readonly differences: readonly Difference[];
  readonly errors: CellErrors;
  readonly notEvaluated: readonly NotEvaluated[];
  readonly cycles: Evaluation["cycles"];
  /** What was set, the formula cells it changed, and the summary as it was before; absent without --set. */
  readonly settings?: {
    readonly set: readonly Change[];
    readonly changed: readonly Change[];
    readonly summary: Summary;
  };
  readonly summary: Summary;
  readonly copy?: Copy;
}

export interface NotEvaluated {
  readonly cell: string;
  readonly reason: string;
  /** The reason without what it quotes. */
  readonly cause: string;
  /** A formula's own cell, or one filled by its array. */
  readonly role: "formula" | "filled";
  /** The cell at the origin of the problem, for a cell that only depends on it. */
  readonly origin?: string;
}

export interface Change {
  readonly cell: string;
  /** What the sheet calls the cell, with its unit; "" if nothing does. */
  label(): string;
  /** A day or a time as the cell shows it; "" for any other value. */
  formatDate(value: CellValue): string;
  readonly before: CellValue;
  readonly after: CellValue;
}

/** The copy requested by --out, or why there is none. */
export type Copy =
  { readonly patches: readonly CellPatch[]; readonly bytes: Uint8Array } | { readonly problem: string };

function hasFailed(report: Report): boolean {
  if (report.status === "unreadable" || report.status === "incomplete") return true;
  return report.copy !== undefined && "problem" in report.copy;
}

/** Without a copy, whether the stored values are right; with one they are expected to change, and only new error values count. */
function isNotable(report: Report): boolean {
  if (report.status === "unreadable") return false;
  return report.copy ? report.errors.newCount > 0 : report.status === "different";
}

/** 0 all equal, 1 differences (with a copy: new error values), 2 not evaluated, unreadable or not written, 3 internal error; the highest wins. */
export function chooseExitCode(reports: readonly Report[]): 0 | 1 | 2 | typeof faultCode {
  if (reports.some((report) => report.status === "unreadable" && report.fault)) return faultCode;
  if (reports.some(hasFailed)) return 2;
  return reports.some(isNotable) ? 1 : 0;
}
