import { cases, settingsOf } from "./cases";
import { evaluate, type CellFunctions, type Outcome } from "./evaluate";
import { simulateTest } from "./simulate";
import { comparesRepeats } from "./techniques";

/** Some tests of one case, the work of a thread. */
export interface Job {
  /** The case by its place in the list. */
  readonly index: number;
  readonly seed: number;
  /** Numbers of the tests, the last one excluded. */
  readonly from: number;
  readonly to: number;
}

/** Simulates and evaluates the tests of a job, one after the other. */
export function outcomesOf({ index, seed, from, to }: Job, functions: CellFunctions): Outcome[] {
  const one = cases[index]!;
  const settings = settingsOf(one);
  const compares = comparesRepeats(one.technique);
  return Array.from({ length: to - from }, (_, place) =>
    evaluate(simulateTest(one.scenario, one.instruments, seed, from + place), settings, compares, functions),
  );
}
