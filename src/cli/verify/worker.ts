import { parentPort } from "node:worker_threads";
import { addInRegistry } from "../shared/add-in";
import { reviewFile } from "./pool";
import type { FileReport } from "./report";

/** What a thread says of a workbook: the report, and when it worked on it (ms since 1970, one clock for all threads). */
export interface Done {
  readonly report: FileReport;
  readonly from: number;
  readonly to: number;
}

/** Reviews the files that the main thread names, one at a time. */
export function serveReviews(): void {
  const addIn = addInRegistry();
  const now = (): number => performance.timeOrigin + performance.now();
  parentPort?.on("message", (file: string) => {
    const from = now();
    const report = reviewFile(file, addIn);
    parentPort?.postMessage({ report, from, to: now() } satisfies Done);
  });
}
