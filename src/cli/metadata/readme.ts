import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { labelGroups } from "../../functions/settings/meanings";
import type { Outcome } from "./command";
import type { FunctionEntry } from "./entry";
import { exportedNames } from "./exports";
import { sentencesOf } from "./sentences";

/** A table that is made, between its heads and what follows it. */
interface Table {
  readonly name: string;
  readonly heads: string;
  readonly end: string;
  readonly rows: readonly string[];
}

/** One row: the call as it is typed, and the first sentence of its description. */
function row({ id, description = "", parameters }: FunctionEntry): string {
  const names = parameters.map(({ name, optional }) => (optional === true ? `[${name}]` : name));
  const [sentence = ""] = sentencesOf(description);
  return `| \`${id}(${names.join(", ")})\` | ${sentence.replace(/\.$/, "").replaceAll("|", "\\|")} |`;
}

/** The functions in the order in which their door names them. */
function functionTable(functions: readonly FunctionEntry[], names: readonly string[]): Table {
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  const rows = names.map((name) => row(byId.get(name.toUpperCase())!));
  return { name: "functions", heads: "| function | gives |\n|---|---|\n", end: "\n\n## Method and sources", rows };
}

/** The labels of settings, a row for those that belong together. */
function labelTable(): Table {
  const rows = labelGroups.map(
    ({ name, meanings }) =>
      `| ${name.toLowerCase()} | ${Object.keys(meanings)
        .map((label) => `\`${label}\``)
        .join(", ")} |`,
  );
  return { name: "labels", heads: "| labels for | all of them |\n|---|---|\n", end: "\n\n", rows };
}

/** Writes the tables of functions and of labels into the README; with `check` it writes nothing and fails where one is another. */
export function readmeCommand(folder: string, file: string, check: boolean): Outcome {
  const { functions } = JSON.parse(readFileSync(join(folder, "functions.json"), "utf8")) as {
    functions: FunctionEntry[];
  };
  const tables = [functionTable(functions, exportedNames(join(folder, "index.ts")).names), labelTable()];
  const lines: string[] = [];
  for (const { name, heads, end, rows } of tables) {
    const readme = readFileSync(file, "utf8");
    const from = readme.indexOf(heads) + heads.length;
    const to = readme.indexOf(end, from);
    if (from < heads.length || to < from)
      return { succeeded: false, lines: [`${file}: its table of ${name} is not where it was`] };
    const text = rows.join("\n");
    if (readme.slice(from, to) === text) continue;
    if (check)
      return { succeeded: false, lines: [`${file}: its table of ${name} is not current; run "npm run metadata"`] };
    writeFileSync(file, readme.slice(0, from) + text + readme.slice(to));
    lines.push(`${file}: table of ${name} rewritten`);
  }
  return { succeeded: true, lines };
}
