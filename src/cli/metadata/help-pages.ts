import { describeResultSize } from "../../functions/result-sizes";
import { labelGroups } from "../../functions/settings/meanings";
import { inEachSystem, type Setting, settingsReference } from "../../functions/settings/reference";
import { type Outcome, writeTable } from "./command";
import { type FunctionEntry, readMetadata, splitIntoSentences } from "./rules";
import { readExportedNames } from "./sources";
import { readFileSync } from "node:fs";
import { join } from "node:path";

const functionTable = {
  name: "table of functions",
  start: "| function | gives | size |\n|---|---|---|\n",
  end: "\n\n## ",
};

/** One row: the call as typed, the first sentence of its description, and how many cells its result fills. */
function writeFunctionRow({ id, description = "", parameters }: FunctionEntry): string {
  const names = parameters.map(({ name, optional }) => (optional === true ? `[${name}]` : name));
  const [sentence = ""] = splitIntoSentences(description);
  return `| \`${id}(${names.join(", ")})\` | ${sentence.replace(/\.$/, "").replaceAll("|", "\\|")} | ${describeResultSize(id)} |`;
}

/** The functions in the order in which their index exports them. */
function writeFunctionRows(functions: readonly FunctionEntry[], names: readonly string[]): string {
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  return names.map((name) => writeFunctionRow(byId.get(name.toUpperCase())!)).join("\n");
}

/** Writes the table of functions into its page; with `check` it writes nothing and fails if it is out of date. */
export function runFunctionsPageCommand(folder: string, file: string, check: boolean): Outcome {
  const { functions } = readMetadata(readFileSync(join(folder, "functions.json"), "utf8"));
  const names = readExportedNames(join(folder, "index.ts")).names;
  return writeTable(file, functionTable, writeFunctionRows(functions, names), check);
}

const settingsTables = {
  name: "list of settings",
  start: "Every example is accepted as it stands.\n\n",
  end: "\n\n## The words",
};

const wordTable = { name: "table of words", start: "| label | word | meaning |\n|---|---|---|\n", end: "\n\n## " };

const heading = "| label | meaning | unit | if blank | example | read by |\n|---|---|---|---|---|---|";

/** One row: everything that is known of a label but its words. */
function writeSettingRow(setting: Setting): string {
  const { label, means, unit, ifBlank, example, zeroIsValue, functions, isRecord } = setting;
  const readers = isRecord ? "none: for the record" : functions.join(", ");
  const cells = [
    `\`${label}\``,
    zeroIsValue ? `${means}; 0 is a value` : means,
    inEachSystem(unit),
    inEachSystem(ifBlank),
    inEachSystem(example),
    readers,
  ];
  return `| ${cells.join(" | ")} |`;
}

/** A table for each group of labels. */
function writeGroups(): string {
  return labelGroups
    .map(({ name }) => {
      const rows = settingsReference.filter(({ group }) => group === name).map(writeSettingRow);
      return [`## ${name}`, "", heading, ...rows].join("\n");
    })
    .join("\n\n");
}

function writeWords(): string {
  return settingsReference
    .flatMap(({ label, words }) =>
      words.flatMap(({ word, meaning }) => (meaning === undefined ? [] : [`| \`${label}\` | ${word} | ${meaning} |`])),
    )
    .join("\n");
}

/** Writes the tables of settings into their page; with `check` it writes nothing and fails if one is out of date. */
export function runSettingsPageCommand(file: string, check: boolean): Outcome {
  const outcomes = [
    writeTable(file, settingsTables, writeGroups(), check),
    writeTable(file, wordTable, writeWords(), check),
  ];
  return { succeeded: outcomes.every(({ succeeded }) => succeeded), lines: outcomes.flatMap(({ lines }) => lines) };
}
