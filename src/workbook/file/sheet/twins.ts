import { WorkbookProblem } from "../problem";

/** Refuses a list in which two entries have one key, such as sheets of one name: which of them a formula means would be a guess. */
export function refuseTwins<T>(list: readonly T[], keyOf: (entry: T) => string, say: (entry: T) => string): void {
  const seen = new Set<string>();
  for (const entry of list) {
    const key = keyOf(entry);
    if (seen.has(key)) throw new WorkbookProblem("damaged", say(entry));
    seen.add(key);
  }
}
