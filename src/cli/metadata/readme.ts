import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Outcome } from "./command";
import type { FunctionEntry } from "./entry";
import { exportedNames } from "./exports";
import { writeTable } from "./written-table";

const table = {
  name: "table of functions",
  start: "| function | gives |\n|---|---|\n",
  end: "\n\n## Method and sources",
};

/** One row: the call as it is typed, and the first sentence of its description. */
function row({ id, description = "", parameters }: FunctionEntry): string {
  const names = parameters.map(({ name, optional }) => (optional === true ? `[${name}]` : name));
  const [sentence = ""] = description.split(/\. (?=[A-Z])/);
  return `| \`${id}(${names.join(", ")})\` | ${sentence.replace(/\.$/, "").replaceAll("|", "\\|")} |`;
}

/** The README's table of functions, in the order in which the functions' door names them. */
function readmeTable(functions: readonly FunctionEntry[], names: readonly string[]): string {
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  return names.map((name) => row(byId.get(name.toUpperCase())!)).join("\n");
}

/** Writes the table of functions into the README from functions.json; with `check` it writes nothing and fails where the table is another. */
export function readmeCommand(folder: string, file: string, check: boolean): Outcome {
  const { functions } = JSON.parse(readFileSync(join(folder, "functions.json"), "utf8")) as {
    functions: FunctionEntry[];
  };
  const rows = readmeTable(functions, exportedNames(join(folder, "index.ts")).names);
  return writeTable(file, table, rows, check);
}
