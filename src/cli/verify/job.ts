import { openWorkbook, verifyWorkbook, WorkbookProblem, type AddInRegistry } from "../../workbook/index";
import { readWorkbookFile } from "../shared/read-file";
import type { FileReport } from "./report";

/** Reads and reviews one workbook; whatever goes wrong is told in the report, so that a folder goes on. */
export function reviewFile(file: string, addIn: AddInRegistry): FileReport {
  try {
    const opened = openWorkbook(readWorkbookFile(file));
    return { file, status: "reviewed", verification: verifyWorkbook(opened, addIn, new Date()) };
  } catch (problem) {
    const what = problem instanceof Error ? problem.message : String(problem);
    const words = problem instanceof WorkbookProblem ? what : `the review broke off: ${what}`;
    return { file, status: "unreadable", problem: words.replace(/\s*[\r\n]+\s*/g, " ") };
  }
}
