import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describeResultSize } from "../../functions/result-sizes";
import { type Outcome, writeTable } from "./command";
import { type FunctionEntry, readMetadata, splitIntoSentences } from "./rules";
import { readExportedNames } from "./sources";

const functionTable = {
  name: "table of functions",
  start: "| function | gives | size |\n|---|---|---|\n",
  end: "\n\n## ",
};

/** One row: the call as typed, the first sentence of its description, and how many cells its result fills. */
function writeRow({ id, description = "", parameters }: FunctionEntry): string {
  const names = parameters.map(({ name, optional }) => (optional === true ? `[${name}]` : name));
  const [sentence = ""] = splitIntoSentences(description);
  return `| \`${id}(${names.join(", ")})\` | ${sentence.replace(/\.$/, "").replaceAll("|", "\\|")} | ${describeResultSize(id)} |`;
}

/** The functions in the order in which their index exports them. */
function writeFunctionRows(functions: readonly FunctionEntry[], names: readonly string[]): string {
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  return names.map((name) => writeRow(byId.get(name.toUpperCase())!)).join("\n");
}

/** Writes the table of functions into its page; with `check` it writes nothing and fails if it is out of date. */
export function runHelpPageCommand(folder: string, file: string, check: boolean): Outcome {
  const { functions } = readMetadata(readFileSync(join(folder, "functions.json"), "utf8"));
  const names = readExportedNames(join(folder, "index.ts")).names;
  return writeTable(file, functionTable, writeFunctionRows(functions, names), check);
}
