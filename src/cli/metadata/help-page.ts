import { readFileSync } from "node:fs";
import { join } from "node:path";
import { labelGroups } from "../../functions/settings/meanings";
import { type Outcome, writeTable } from "./command";
import { type FunctionEntry, readMetadata, splitIntoSentences } from "./rules";
import { readExportedNames } from "./sources";

const functionTable = {
  name: "table of functions",
  start: "| function | gives |\n|---|---|\n",
  end: "\n\n## ",
};

const labelTable = { name: "table of labels", start: "| labels for | all of them |\n|---|---|\n", end: "\n\n" };

/** One row: the call as typed, and the first sentence of its description. */
function writeRow({ id, description = "", parameters }: FunctionEntry): string {
  const names = parameters.map(({ name, optional }) => (optional === true ? `[${name}]` : name));
  const [sentence = ""] = splitIntoSentences(description);
  return `| \`${id}(${names.join(", ")})\` | ${sentence.replace(/\.$/, "").replaceAll("|", "\\|")} |`;
}

/** The functions in the order in which their index exports them. */
function writeFunctionRows(functions: readonly FunctionEntry[], names: readonly string[]): string {
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  return names.map((name) => writeRow(byId.get(name.toUpperCase())!)).join("\n");
}

/** The labels of settings, related ones in one row. */
function labelRows(): string {
  const listLabels = (labels: object) =>
    Object.keys(labels)
      .map((label) => `\`${label}\``)
      .join(", ");
  return labelGroups.map(({ name, meanings }) => `| ${name.toLowerCase()} | ${listLabels(meanings)} |`).join("\n");
}

/** Writes the tables of functions and of labels into their page; with `check` it writes nothing and fails if one is out of date. */
export function runHelpPageCommand(folder: string, file: string, check: boolean): Outcome {
  const { functions } = readMetadata(readFileSync(join(folder, "functions.json"), "utf8"));
  const names = readExportedNames(join(folder, "index.ts")).names;
  const outcomes = [
    writeTable(file, functionTable, writeFunctionRows(functions, names), check),
    writeTable(file, labelTable, labelRows(), check),
  ];
  return { succeeded: outcomes.every(({ succeeded }) => succeeded), lines: outcomes.flatMap(({ lines }) => lines) };
}
