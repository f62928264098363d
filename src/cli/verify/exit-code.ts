import { type FileReport, outcomeOf } from "../../workbook/index";
import { faultCode } from "../shared/run-program";

/** 0 nothing wrong, 1 findings, 2 a workbook unreadable or not recomputed in full, 3 internal error; the greatest wins. */
export function chooseExitCode(reports: readonly FileReport[]): 0 | 1 | 2 | typeof faultCode {
  if (reports.some((report) => report.status === "unreadable" && report.fault)) return faultCode;
  const outcomes = reports.map(outcomeOf);
  if (outcomes.includes("not fully read")) return 2;
  return outcomes.includes("findings") ? 1 : 0;
}
