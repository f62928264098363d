import { readFileSync, statSync } from "node:fs";
import { refuseLargeFile, WorkbookProblem } from "../../workbook/index";
import { codeOf } from "./find-files";

/** A workbook's bytes; its size is looked at before it is read, and what is no plain file (a device, a pipe) is not opened. */
export function readWorkbookFile(path: string): Uint8Array {
  try {
    const stats = statSync(path);
    if (!stats.isFile()) throw new WorkbookProblem("not a zip", "this is not a file");
    refuseLargeFile(stats.size);
    return readFileSync(path);
  } catch (problem) {
    if (problem instanceof WorkbookProblem) throw problem;
    throw new WorkbookProblem("damaged", `the file cannot be read (${codeOf(problem)})`);
  }
}
