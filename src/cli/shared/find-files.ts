import { readdirSync, readFileSync, type Stats, statSync } from "node:fs";
import { join } from "node:path";
import { refuseLargeFile, WorkbookProblem } from "../../workbook/index";
import { BadArgument } from "./parse-options";

/** The workbooks at the given paths: files as named, folders searched recursively for .xlsx, in order. */
export function findWorkbooks(paths: readonly string[]): string[] {
  const found = new Set<string>();
  for (const path of paths) {
    const stats = readStats(path);
    if (!stats) throw new BadArgument(`there is no file or folder ${path}`);
    if (stats.isDirectory()) {
      const inside = collectWorkbooks(path);
      if (inside.length === 0) throw new BadArgument(`there is no .xlsx workbook in the folder ${path}`);
      for (const file of inside) found.add(file);
    } else found.add(path);
  }
  return [...found];
}

function collectWorkbooks(folder: string): string[] {
  const found: string[] = [];
  const entries = listFolder(folder).sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...collectWorkbooks(path));
    // "~$" marks the lock file Excel keeps next to an open workbook.
    else if (/\.xlsx$/i.test(entry.name) && !entry.name.startsWith("~$") && readStats(path)?.isFile()) found.push(path);
  }
  return found;
}

function listFolder(folder: string) {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch (problem) {
    throw new BadArgument(`the folder ${folder} cannot be read (${readErrorCode(problem)})`);
  }
}

function readStats(path: string): Stats | undefined {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
}

/** The system's short name of an error, such as EACCES. */
export function readErrorCode(problem: unknown): string {
  return problem instanceof Error && "code" in problem && typeof problem.code === "string"
    ? problem.code
    : String(problem);
}

/** A workbook's bytes; its size is checked before reading, and anything but a regular file (a device, a pipe) is not opened. */
export function readWorkbookFile(path: string): Uint8Array {
  try {
    const stats = statSync(path);
    if (!stats.isFile()) throw new WorkbookProblem("not a zip", "this is not a file");
    refuseLargeFile(stats.size);
    return readFileSync(path);
  } catch (problem) {
    if (problem instanceof WorkbookProblem) throw problem;
    throw new WorkbookProblem("damaged", `the file cannot be read (${readErrorCode(problem)})`);
  }
}
