import { type ChildProcess, fork } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import type { Way } from "./commands";
import type { Answer, Question } from "./helper";
import { budget, type Fault, type Outcome } from "./outcome";
import { forgetPeak, usageOf, watch } from "./watch";

/** Memory above which the helper is replaced before its next workbook, bytes: what it keeps must not be counted for that one. */
const tired = 500 * 2 ** 20;

/** The helper's program as one file; packages are found from the project's own folder. */
export function buildHelper(): { readonly file: string; readonly remove: () => void } {
  const root = fileURLToPath(new URL("../../../", import.meta.url));
  const cache = join(root, "node_modules/.cache");
  mkdirSync(cache, { recursive: true });
  const folder = mkdtempSync(join(cache, "stillair-fuzz-"));
  const file = join(folder, "helper.mjs");
  buildSync({
    entryPoints: [fileURLToPath(new URL("./helper.ts", import.meta.url))],
    outfile: file,
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    target: "node20",
    logLevel: "error",
  });
  const remove = () => rmSync(folder, { recursive: true, force: true });
  process.on("exit", remove);
  return { file, remove };
}

/** True where a run was stopped: others on the same workbook would take as long. */
export function hasNoEnd(outcomes: readonly Outcome[]): boolean {
  return outcomes.some(({ faults }) => faults.some(({ kind }) => kind === "no end"));
}

/** Runs commands on workbooks in a helper process, which is replaced where a workbook brings it down. */
export class InProcess {
  private helper: ChildProcess | undefined;
  private readonly folder = mkdtempSync(join(tmpdir(), "fuzz-out-"));

  constructor(private readonly program: string) {
    // A helper that is busy would not see that it is alone.
    process.on("exit", () => this.helper?.kill("SIGKILL"));
  }

  /** Every way on the file, in order; a way that brings the helper down costs that way alone, one without end those behind it too. */
  async run(file: string, ways: readonly Way[]): Promise<{ cell: string; outcomes: Outcome[] }> {
    const outcomes: Outcome[] = [];
    let cell = "Sheet1!A1";
    for (let left = ways; left.length > 0; left = ways.slice(outcomes.length)) {
      const answered = await this.ask({ file, folder: join(this.folder, "out"), ways: left });
      cell = answered.cell ?? cell;
      outcomes.push(...answered.outcomes);
      if (hasNoEnd(outcomes)) break;
    }
    return { cell, outcomes };
  }

  close(): void {
    this.helper?.kill("SIGKILL");
    rmSync(this.folder, { recursive: true, force: true });
  }

  private ready(): ChildProcess {
    if (this.helper?.exitCode !== null || this.helper.signalCode !== null)
      this.helper = fork(this.program, [], { execArgv: ["--expose-gc"], stdio: ["ignore", "ignore", "pipe", "ipc"] });
    return this.helper;
  }

  private ask(question: Question): Promise<{ cell?: string; outcomes: Outcome[] }> {
    const helper = this.ready();
    const pid = helper.pid!;
    const outcomes: Outcome[] = [];
    let [cell, current, end]: [string | undefined, Way, Fault["kind"]] = [undefined, question.ways[0]!, "crash"];
    let lastWords = "";
    forgetPeak(pid);
    let watching = watchHelper();
    function watchHelper() {
      return watch(pid, (why) => {
        end = why;
        helper.kill("SIGKILL");
      });
    }
    return new Promise((resolve) => {
      const finish = (): void => {
        helper.removeAllListeners();
        helper.stderr?.removeAllListeners();
        watching.stop();
        resolve({ ...(cell !== undefined && { cell }), outcomes });
      };
      const add = (way: Way, seconds: number, memory: number, faults: readonly Fault[]): void => {
        const tooMuch: Fault[] =
          memory > budget.memory ? [{ kind: "memory", words: `${Math.round(memory / 2 ** 20)} MB` }] : [];
        outcomes.push({ way, as: "in process", seconds, memory, faults: [...faults, ...tooMuch] });
      };
      helper.stderr?.on("data", (piece: Buffer) => (lastWords = (lastWords + piece.toString()).slice(-2_000)));
      helper.on("message", (answer: Answer) => {
        if ("cell" in answer) cell = answer.cell;
        else if ("start" in answer) {
          watching.stop();
          forgetPeak(pid);
          [current, watching] = [answer.start, watchHelper()];
        } else if ("end" in answer) add(answer.end, answer.seconds, watching.stop().memory, answer.faults);
        else {
          finish();
          // Its end is seen only later, and the next workbook must not go to a helper that is about to end.
          if ((usageOf(pid)?.memory ?? 0) > tired && helper.kill("SIGKILL")) this.helper = undefined;
        }
      });
      helper.on("exit", (_, signal) => {
        const { seconds, memory } = watching.stop();
        const words =
          end === "crash"
            ? `the process ended (${signal ?? "exit"}): ${lastWords.slice(0, 400)}`
            : `stopped after ${seconds.toFixed(0)} s`;
        add(current, seconds, memory, end === "memory" ? [] : [{ kind: end, words }]);
        finish();
      });
      helper.send(question);
    });
  }
}
