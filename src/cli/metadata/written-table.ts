import { readFileSync, writeFileSync } from "node:fs";
import type { Outcome } from "./command";

/** A table of a text file that this program writes: its name, its heading with the line below, and what follows it. */
export interface WrittenTable {
  readonly name: string;
  readonly start: string;
  readonly end: string;
}

/** Puts the rows of a table into a file; with `check` it writes nothing and fails where the table is another. */
export function writeTable(file: string, { name, start, end }: WrittenTable, rows: string, check: boolean): Outcome {
  const text = readFileSync(file, "utf8");
  const from = text.indexOf(start) + start.length;
  const to = text.indexOf(end, from);
  if (from < start.length || to < from)
    return { succeeded: false, lines: [`${file}: its ${name} is not where it was`] };
  const current = text.slice(from, to) === rows;
  if (check && !current)
    return { succeeded: false, lines: [`${file}: its ${name} is not current; run "npm run metadata"`] };
  if (!current) writeFileSync(file, text.slice(0, from) + rows + text.slice(to));
  return { succeeded: true, lines: current ? [] : [`${file}: ${name} rewritten`] };
}
