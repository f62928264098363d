import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { runGraphCommand } from "../../../src/cli/graph/command";
import { issueCopyCommand } from "../../../src/cli/issue-copy/command";
import { runRecalcCommand } from "../../../src/cli/recalc/command";
import { createConsoleOutput, type Output } from "../../../src/cli/shared/output";
import { traceCommand } from "../../../src/cli/trace/command";
import { verifyCommand } from "../../../src/cli/verify/command";
import { formatFullAddress, openWorkbook } from "../../../src/workbook/index";
import { commandLine, type Way } from "./commands";
import { faultsOfFiles } from "./judge-files";
import { faultsOfCode, faultsOfText } from "./judge";
import type { Fault } from "./outcome";

/** What the helper process is asked: the ways to run on a file, with a folder for what they write. */
export interface Question {
  readonly file: string;
  readonly folder: string;
  readonly ways: readonly Way[];
}

/** What it answers: the cell that will be traced, then a start and an end of each way, and that all are done. */
export type Answer =
  | { readonly cell: string }
  | { readonly start: Way }
  | { readonly end: Way; readonly seconds: number; readonly faults: Fault[] }
  | { readonly done: true };

type Command = (given: readonly string[], output: Output) => number | Promise<number>;

const commands: Readonly<Record<string, Command>> = {
  recalc: runRecalcCommand,
  verify: (given, output) => verifyCommand(given, output, ""),
  trace: traceCommand,
  graph: runGraphCommand,
  "issue-copy": issueCopyCommand,
};

/** As much of an output as is kept and looked at. */
const mostKept = 4_000_000;

const heard = { out: "", err: "" };

/** Keeps what is printed in place of printing it: nobody reads the helper's own output. */
function keep(stream: keyof typeof heard) {
  return (piece: unknown): boolean => {
    if (heard[stream].length < mostKept) heard[stream] += String(piece).slice(0, mostKept);
    return true;
  };
}
process.stdout.write = keep("out");
process.stderr.write = keep("err");

/** The last formula of the workbook: it depends on the most. */
function lastFormula(file: string): string {
  try {
    const { sheets } = openWorkbook(new Uint8Array(readFileSync(file))).book;
    for (const { name, cells } of [...sheets].reverse())
      for (const { row, column, formula } of [...cells.values()].reverse())
        if (formula) return formatFullAddress(name, row, column);
  } catch {
    // What cannot be opened has no cell to choose; every command says so.
  }
  return "Sheet1!A1";
}

const output = createConsoleOutput();

async function run(way: Way, file: string, cell: string, folder: string): Promise<Fault[]> {
  const { command, arguments: given } = commandLine(way, { file, cell, folder });
  try {
    Object.assign(heard, { out: "", err: "" });
    const code = await commands[command]!(given, output);
    return [...faultsOfCode(code, null), ...faultsOfText(heard.out, heard.err), ...faultsOfFiles(folder)];
  } catch (problem) {
    const words = problem instanceof Error ? (problem.stack ?? problem.message) : String(problem);
    return [{ kind: "crash", words: words.slice(0, 600) }];
  }
}

async function answer({ file, folder, ways }: Question, tell: (answer: Answer) => void): Promise<void> {
  const cell = ways.some((way) => way.startsWith("trace")) ? lastFormula(file) : "Sheet1!A1";
  tell({ cell });
  for (const way of ways) {
    if (existsSync(folder)) rmSync(folder, { recursive: true });
    mkdirSync(folder);
    // What another way left behind is not this one's memory.
    global.gc?.();
    tell({ start: way });
    const before = process.cpuUsage();
    const faults = await run(way, file, cell, folder);
    const { user, system } = process.cpuUsage(before);
    tell({ end: way, seconds: (user + system) / 1e6, faults });
  }
  global.gc?.();
  tell({ done: true });
}

process.on("message", (question: Question) => void answer(question, (said) => process.send!(said)));
