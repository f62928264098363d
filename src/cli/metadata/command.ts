import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { generateMetadata } from "./generate";
import { readMetadata } from "./rules";

export interface Outcome {
  readonly succeeded: boolean;
  readonly lines: readonly string[];
}

/** Writes functions.json next to the sources; with `check` it writes nothing and fails if the file is out of date. */
export async function runMetadataCommand(folder: string, check: boolean): Promise<Outcome> {
  const target = join(folder, "functions.json");
  const generated = await generateMetadata(folder);
  if (!("text" in generated)) return { succeeded: false, lines: generated.problems };
  const current = existsSync(target) ? readFileSync(target, "utf8") : undefined;
  const stale = current !== generated.text;
  if (check && stale)
    return {
      succeeded: false,
      lines: [`${target} is not current; run "npm run metadata" and review the difference`],
    };
  if (stale) writeFileSync(target, generated.text);
  const count = readMetadata(generated.text).functions.length;
  return { succeeded: true, lines: [`${target} lists ${count} functions${stale ? " (rewritten)" : ""}`] };
}

/** A generated table in a text file: its name, its heading with the line below, and what follows it. */
interface WrittenTable {
  readonly name: string;
  readonly start: string;
  readonly end: string;
}

/** Puts the rows of a table into a file; with `check` it writes nothing and fails if the table differs. */
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
