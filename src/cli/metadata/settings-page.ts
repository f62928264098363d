import { labelGroups } from "../../functions/settings/meanings";
import { inEachSystem, type Setting, settingsReference } from "../../functions/settings/reference";
import { type Outcome, writeTable } from "./command";

const settingsTables = {
  name: "list of settings",
  start: "Every example is accepted as it stands.\n\n",
  end: "\n\n## The words",
};

const wordTable = { name: "table of words", start: "| label | word | meaning |\n|---|---|---|\n", end: "\n\n## " };

const heading = "| label | meaning | unit | if blank | example | read by |\n|---|---|---|---|---|---|";

/** One row: everything that is known of a label but its words. */
function writeRow(setting: Setting): string {
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
      const rows = settingsReference.filter(({ group }) => group === name).map(writeRow);
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
