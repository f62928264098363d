import { examples } from "../functions/examples";
import { settingsReference } from "../functions/settings/reference";
import type { SettingEntry, StoredFunctions } from "./entries";
import { summarizeFunction } from "./reference-page";

interface Metadata {
  readonly functions: readonly {
    readonly id: string;
    readonly description?: string;
    readonly parameters: readonly {
      readonly name: string;
      readonly description?: string;
      readonly dimensionality?: string;
      readonly optional?: boolean;
      readonly customEnumId?: string;
    }[];
  }[];
  readonly enums?: readonly {
    readonly id: string;
    readonly values: readonly { readonly stringValue: string; readonly tooltip: string }[];
  }[];
}

/** For `<script type="application/json">`, where nothing may look like the end of the element. */
const writeData = (data: unknown): string => JSON.stringify(data).replaceAll("<", "\\u003c");

/** What the forms need of functions.json; made once, at build. */
export function composeFunctionList({ functions, enums = [] }: Metadata): string {
  const stored: StoredFunctions = {
    functions: functions.map((entry) => ({
      id: entry.id,
      brief: summarizeFunction(entry),
      arguments: entry.parameters.map(({ name, description: means = "", dimensionality, optional, customEnumId }) => ({
        name,
        description: means,
        isRange: dimensionality === "matrix",
        isOptional: optional === true,
        keepsBlanks: dimensionality === "matrix" && mustKeepBlanks(name, means),
        choices: customEnumId,
      })),
      example: examples[entry.id]?.arguments ?? [],
    })),
    choices: Object.fromEntries(
      enums.map(({ id, values }) => [
        id,
        values.map(({ stringValue, tooltip }) => ({ word: stringValue, meaning: tooltip })),
      ]),
    ),
  };
  return writeData(stored);
}

/** Settings hold values of both kinds, and a blank in "include" is a decision, so they stay as they are typed. */
const mustKeepBlanks = (name: string, description: string): boolean =>
  name === "settings" || name === "include" || /\b0 is a value\b|pass blanks as ""/.test(description);

/** What the forms need of the labels of the settings; made once, at build. */
export const composeSettingList = (): string =>
  writeData(
    settingsReference.map(({ label, group, means, unit, example, words, functions }): SettingEntry => ({
      label,
      group,
      means,
      unit: { SI: unit.SI, IP: unit.IP },
      example: { SI: example.SI, IP: example.IP },
      choices: words,
      functions,
    })),
  );
