import type { Way } from "./commands";

/** How a run went. */
export interface Outcome {
  readonly way: Way;
  /** In the fuzzer's helper process, or as a user starts it. */
  readonly as: "in process" | "program";
  /** Seconds of processor time. */
  readonly seconds: number;
  /** Largest resident memory, bytes. */
  readonly memory: number;
  /** What is wrong with it; empty where all is well. */
  readonly faults: readonly Fault[];
}

export interface Fault {
  readonly kind:
    | "crash"
    | "stack trace"
    | "caught crash"
    | "control character"
    | "long message"
    | "exit code"
    | "input overwritten"
    | "left behind"
    | "active content"
    | "memory"
    | "no end";
  readonly words: string;
}

/** What a run may take. Above `seconds` it is printed; only above `endless` is it a fault, since a machine may be slow. */
export const budget = { seconds: 10, endless: 60, memory: 1.5 * 2 ** 30 } as const;
