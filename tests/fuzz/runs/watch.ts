import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { budget } from "./outcome";

/** Ticks of the processor clock in a second, as /proc counts them. */
const ticks = Number(execFileSync("getconf", ["CLK_TCK"], { encoding: "utf8" }));

/** Seconds of processor time of a process so far, and its largest memory in bytes; undefined when it is gone. */
export function usageOf(pid: number): { seconds: number; memory: number } | undefined {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8").replace(/^.*\)/s, "").trim().split(" ");
    const memory = /VmHWM:\s*(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1];
    return { seconds: (Number(fields[11]) + Number(fields[12])) / ticks, memory: Number(memory ?? 0) * 1024 };
  } catch {
    return undefined;
  }
}

/** Lets the largest memory of a process count from now on. */
export function forgetPeak(pid: number): void {
  try {
    writeFileSync(`/proc/${pid}/clear_refs`, "5");
  } catch {
    // A kernel without it counts from the start of the process; such a peak is tried again in a process of its own.
  }
}

/** Looks at a process until `stop` is called; ends it where it takes more processor time than a run that ends, or twice the memory. */
export function watch(pid: number, end: (why: "no end" | "memory") => void) {
  const [start, most] = [usageOf(pid)?.seconds ?? 0, { seconds: 0, memory: 0 }];
  let ended = false;
  const look = (): void => {
    const now = usageOf(pid);
    if (!now) return;
    most.seconds = Math.max(most.seconds, now.seconds - start);
    most.memory = Math.max(most.memory, now.memory);
    if (ended || (most.seconds <= budget.endless && most.memory <= 2 * budget.memory)) return;
    ended = true;
    end(most.memory > 2 * budget.memory ? "memory" : "no end");
  };
  const timer = setInterval(look, 50);
  return {
    stop: (): { seconds: number; memory: number } => {
      look();
      clearInterval(timer);
      return most;
    },
  };
}
