import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { evaluateBook, openWorkbook, writeBack } from "../../src/workbook";
import { recomputedByLibreOffice } from "../samples/libre-office";
import { largeWorkbook } from "./large-workbook";
import { growthOf } from "./ratio";

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
  /** LibreOffice's whole process over opening and evaluating in a process that already runs, as a folder of workbooks does. */
  readonly inRunningProcess: number;
  /** LibreOffice's process less the same process on an empty workbook, over opening and evaluating in a process that already runs. */
  readonly withoutStart: number;
  /** Of opening and evaluating in a process that already runs. */
  readonly growth: number;
}

/** How many times longer LibreOffice takes for the same file, opened and recalculated. */
export async function recalcComparison(): Promise<RecalcComparison> {
  const bytes = filled(await largeWorkbook());
  const half = filled(await largeWorkbook(500));
  const empty = await largeWorkbook(0);
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const file = join(folder, "large.xlsx");
    writeFileSync(file, bytes);
    const own: number[] = [];
    const whole: number[] = [];
    const start: number[] = [];
    const warm: number[] = [];
    const warmHalf: number[] = [];
    for (let round = 0; round < rounds; round++) {
      whole.push(seconds(() => recomputedByLibreOffice(new Map([["large.xlsx", bytes]]))));
      start.push(seconds(() => recomputedByLibreOffice(new Map([["empty.xlsx", empty]]))));
      own.push(seconds(() => runRecalc(file)));
      warm.push(seconds(() => evaluateBook(openWorkbook(bytes).book)));
      warmHalf.push(seconds(() => evaluateBook(openWorkbook(half).book)));
    }
    return {
      formulaCells: evaluateBook(openWorkbook(bytes).book).cells.length,
      wholeProcess: median(whole) / median(own),
      inRunningProcess: median(whole) / median(warm),
      withoutStart: Math.max(0, median(whole) - median(start)) / median(warm),
      growth: growthOf(median(warm) / median(warmHalf)),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The workbook with its values stored, so that the command finds nothing to report. */
function filled(bytes: Uint8Array): Uint8Array {
  const opened = openWorkbook(bytes);
  const patches = evaluateBook(opened.book).cells.map(({ sheet, row, column, outcome }) => {
    if (!outcome.evaluated) throw new Error(`a cell of the large workbook was not evaluated: ${outcome.reason}`);
    return { sheet, row, column, value: outcome.value };
  });
  return writeBack(opened, patches);
}

/** The command as a user starts it. */
function runRecalc(file: string): void {
  execFileSync("node", ["src/cli/start.mjs", "recalc", file], { stdio: "ignore" });
}
