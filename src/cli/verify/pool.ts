import { availableParallelism } from "node:os";
import { parentPort, Worker } from "node:worker_threads";
import {
  type AddInRegistry,
  type FileReport,
  openWorkbook,
  verifyWorkbook,
  WorkbookProblem,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { readWorkbookFile } from "../shared/find-files";
import { describeFault } from "../shared/run-program";

/** When a thread worked on a workbook, ms since the start. */
export interface Span {
  readonly thread: number;
  readonly file: string;
  readonly from: number;
  readonly to: number;
}

interface PoolResult {
  /** In the order of the files. */
  readonly reports: readonly FileReport[];
  readonly spans: readonly Span[];
}

/** Tells that a workbook is done, and how many are. */
type Tell = (report: FileReport, done: number) => void;

/**
 * Reviews workbooks on all cores, a worker thread each; every thread takes the next file when it is free. One file, or one core, is
 * done in this thread.
 * @param entry The file that a worker runs: the command's own.
 */
export async function reviewAll(
  files: readonly string[],
  threads: number | undefined,
  entry: string,
  tell: Tell,
): Promise<PoolResult> {
  const count = Math.min(files.length, threads ?? availableParallelism());
  if (count > 1) return runOnThreads(files, count, entry, tell);
  const addIn = addInRegistry();
  const start = performance.now();
  const spans: Span[] = [];
  const reports = files.map((file, index) => {
    const from = performance.now() - start;
    const report = reviewFile(file, addIn);
    spans.push({ thread: 1, file, from, to: performance.now() - start });
    tell(report, index + 1);
    return report;
  });
  return { reports, spans };
}

async function runOnThreads(files: readonly string[], count: number, entry: string, tell: Tell): Promise<PoolResult> {
  const start = performance.timeOrigin + performance.now();
  const reports = new Map<number, FileReport>();
  const spans: Span[] = [];
  let next = 0;
  const startThread = (number: number): Promise<void> =>
    new Promise((resolve) => {
      const worker = new Worker(entry);
      let current = -1;
      const finish = (index: number, report: FileReport): void => {
        reports.set(index, report);
        tell(report, reports.size);
      };
      const take = (): void => {
        current = next++;
        const file = files[current];
        if (file === undefined) void worker.terminate().then(() => resolve());
        else worker.postMessage(file);
      };
      worker.on("message", ({ report, from, to }: Done) => {
        spans.push({ thread: number, file: report.file, from: from - start, to: to - start });
        finish(current, report);
        take();
      });
      // A workbook that crashes a thread, by running out of memory say, loses only its own report; another thread takes over.
      worker.on("error", (problem) => {
        const file = files[current];
        if (file !== undefined)
          finish(current, { file, status: "unreadable", problem: describeFault(problem), fault: true });
        resolve(startThread(number));
      });
      take();
    });
  await Promise.all(Array.from({ length: count }, (_, index) => startThread(index + 1)));
  return { reports: files.map((_, index) => reports.get(index)!), spans };
}

/** Reads and reviews one workbook; any failure goes into the report, so that the rest of a folder is still reviewed. */
function reviewFile(file: string, addIn: AddInRegistry): FileReport {
  try {
    const opened = openWorkbook(readWorkbookFile(file), { withLooks: true });
    return { file, status: "reviewed", verification: verifyWorkbook(opened, addIn, new Date()) };
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return { file, status: "unreadable", problem: problem.message };
    return { file, status: "unreadable", problem: describeFault(problem), fault: true };
  }
}

/** A thread's message about a workbook: the report, and when it was processed (ms since 1970, one clock for all threads). */
interface Done {
  readonly report: FileReport;
  readonly from: number;
  readonly to: number;
}

/** Reviews the files that the main thread sends, one at a time. */
export function serveReviews(): void {
  const addIn = addInRegistry();
  const readClock = (): number => performance.timeOrigin + performance.now();
  parentPort?.on("message", (file: string) => {
    const from = readClock();
    const report = reviewFile(file, addIn);
    parentPort?.postMessage({ report, from, to: readClock() } satisfies Done);
  });
}
