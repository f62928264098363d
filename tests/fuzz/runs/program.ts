import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { commandLine, type Way } from "./commands";
import { faultsOfFiles } from "./judge-files";
import { faultsOfCode, faultsOfText } from "./judge";
import { budget, type Fault, type Outcome } from "./outcome";
import { watch } from "./watch";

const start = fileURLToPath(new URL("../../../src/cli/start.mjs", import.meta.url));

/** As much of an output as is kept and looked at. */
const mostKept = 4_000_000;

/** Runs a command on a file as a user starts it. */
export async function runProgram(way: Way, file: string, cell: string): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), "fuzz-program-"));
  try {
    const { command, arguments: given } = commandLine(way, { file, cell, folder });
    const ended = await programOf([command, ...given]);
    const faults: Fault[] = [...ended.faults, ...faultsOfText(ended.out, ended.err), ...faultsOfFiles(folder)];
    return { way, as: "program", seconds: ended.seconds, memory: ended.memory, faults };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Ended {
  readonly out: string;
  readonly err: string;
  readonly seconds: number;
  readonly memory: number;
  readonly faults: readonly Fault[];
}

/** Starts a command with these arguments and waits for its end. */
export function programOf(given: readonly string[]): Promise<Ended> {
  const heard = { out: "", err: "" };
  const child = spawn(process.execPath, [start, ...given], { stdio: ["ignore", "pipe", "pipe"] });
  const keep = (stream: "out" | "err") => (piece: Buffer) => {
    if (heard[stream].length < mostKept) heard[stream] += piece.toString();
  };
  child.stdout.on("data", keep("out"));
  child.stderr.on("data", keep("err"));
  let stopped: "no end" | "memory" | undefined;
  const watching = watch(child.pid!, (why) => {
    stopped = why;
    child.kill("SIGKILL");
  });
  return new Promise((resolve) => {
    child.on("close", (code, signal) => {
      const { seconds, memory } = watching.stop();
      const faults: Fault[] = [];
      if (stopped === "no end") faults.push({ kind: "no end", words: `stopped after ${seconds.toFixed(0)} s` });
      if (memory > budget.memory) faults.push({ kind: "memory", words: `${Math.round(memory / 2 ** 20)} MB` });
      if (stopped === undefined) faults.push(...faultsOfCode(code, signal));
      resolve({ ...heard, seconds, memory, faults });
    });
  });
}
