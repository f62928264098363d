import { openWorkbook, verifyWorkbook, WorkbookProblem, type AddInRegistry } from "../../workbook/index";
import { faultText } from "../shared/run-program";
import { readWorkbookFile } from "../shared/read-file";
import type { FileReport } from "./report";

/** Reads and reviews one workbook; whatever goes wrong is told in the report, so that a folder goes on. */
export function reviewFile(file: string, addIn: AddInRegistry): FileReport {
  try {
    const opened = openWorkbook(readWorkbookFile(file));
    return { file, status: "reviewed", verification: verifyWorkbook(opened, addIn, new Date()) };
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return { file, status: "unreadable", problem: problem.message };
    return { file, status: "unreadable", problem: faultText(problem), fault: true };
  }
}
