import type { ExampleArgument } from "../functions/examples";

/** A word that an argument or a setting takes; without a meaning where the word says it. */
export interface Choice {
  readonly word: string;
  readonly meaning?: string;
}

export interface ArgumentEntry {
  readonly name: string;
  readonly description: string;
  readonly isRange: boolean;
  readonly isOptional: boolean;
  /** True where 0 is a value or a reading, so that blank cells must be passed as "". */
  readonly keepsBlanks: boolean;
  readonly choices: readonly Choice[];
}

/** What the pane's forms know of a function. */
export interface FunctionEntry {
  readonly id: string;
  /** What it gives, in one line. */
  readonly brief: string;
  readonly arguments: readonly ArgumentEntry[];
  readonly example: readonly ExampleArgument[];
}

export type Units = "SI" | "IP";

/** What the pane's forms know of a label of the settings. */
export interface SettingEntry {
  readonly label: string;
  readonly group: string;
  readonly means: string;
  readonly unit: Readonly<Record<Units, string>>;
  readonly example: Readonly<Record<Units, string | number>>;
  readonly choices: readonly Choice[];
  /** The functions that read it. */
  readonly functions: readonly string[];
}

/** The functions as the page holds them: a list of words that several arguments take is there once. */
export interface StoredFunctions {
  readonly functions: readonly (Omit<FunctionEntry, "arguments"> & {
    readonly arguments: readonly (Omit<ArgumentEntry, "choices"> & { readonly choices?: string | undefined })[];
  })[];
  readonly choices: Readonly<Record<string, readonly Choice[]>>;
}

/** The functions, from the text of the page's element for them. */
export function readFunctions(text: string): readonly FunctionEntry[] {
  const stored = JSON.parse(text) as StoredFunctions;
  return stored.functions.map((entry) => ({
    ...entry,
    arguments: entry.arguments.map(({ choices = "", ...argument }) => ({
      ...argument,
      choices: stored.choices[choices] ?? [],
    })),
  }));
}

/** The settings, from the text of the page's element for them. */
export const readSettings = (text: string): readonly SettingEntry[] => JSON.parse(text) as SettingEntry[];
