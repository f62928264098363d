import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { evaluateBook, openWorkbook } from "../../src/workbook";
import { recomputedByLibreOffice } from "../samples/libre-office";
import { largeWorkbook } from "./large-workbook";

const rounds = 5;

function seconds(run: () => unknown): number {
  const start = process.hrtime.bigint();
  run();
  return Number(process.hrtime.bigint() - start) / 1e9;
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1]!;
}

export interface RecalcComparison {
  readonly formulaCells: number;
  /** LibreOffice's whole process over ours, start-up and reading included. */
  readonly wholeProcess: number;
  /** LibreOffice's process less the same process on an empty workbook, over our opening and evaluation in a warm process. */
  readonly withoutStart: number;
}

/** How many times longer LibreOffice takes for the same file, opened and recalculated. */
export async function recalcComparison(): Promise<RecalcComparison> {
  const bytes = await largeWorkbook();
  const empty = await largeWorkbook(0);
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const file = join(folder, "large.xlsx");
    writeFileSync(file, bytes);
    const opened = openWorkbook(bytes);
    const evaluation = evaluateBook(opened.book);
    const unevaluated = evaluation.cells.filter(({ outcome }) => !outcome.evaluated).length;
    if (unevaluated > 0) throw new Error(`${unevaluated} cells of the large workbook were not evaluated`);
    const own: number[] = [];
    const whole: number[] = [];
    const start: number[] = [];
    const warm: number[] = [];
    for (let round = 0; round < rounds; round++) {
      whole.push(seconds(() => recomputedByLibreOffice(bytes)));
      start.push(seconds(() => recomputedByLibreOffice(empty)));
      own.push(seconds(() => runRecalc(file)));
      warm.push(seconds(() => evaluateBook(openWorkbook(bytes).book)));
    }
    return {
      formulaCells: evaluation.cells.length,
      wholeProcess: median(whole) / median(own),
      withoutStart: Math.max(0, median(whole) - median(start)) / median(warm),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The command as a user starts it. It ends with 1: the file was written without values, so that every cell differs. */
function runRecalc(file: string): void {
  try {
    execFileSync("npx", ["tsx", "src/cli/recalc.ts", file], { stdio: "ignore" });
  } catch (error) {
    if ((error as { status?: number }).status !== 1) throw error;
  }
}
