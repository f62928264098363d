import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import { findDuplicates, checkEntry, type Metadata, type ParameterEntry, readMetadata } from "./rules";
import { choiceListOf, choiceLists } from "../../functions/choices";
import { readExportedNames, readSource, listSourceFiles } from "./sources";

/** The content of functions.json, or the reasons why there is none. */
export type Generated = { readonly text: string; readonly problems: [] } | { readonly problems: readonly string[] };

/** Placeholder for the help pages' address until the build inserts the add-in's. */
export const placeholderBase = "https://localhost:3000";

/**
 * Makes the text of functions.json from the `@customfunction` comments in a folder, and checks it against the folder's index.ts.
 * The same sources give the same text: functions are in the order of their ids.
 */
export async function generateMetadata(folder: string): Promise<Generated> {
  const door = join(folder, "index.ts");
  const files = listSourceFiles(folder).map((file) => ({ file, ...readSource(file, readFileSync(file, "utf8")) }));
  const sourceProblems = files.flatMap(({ problems }) => problems);
  if (!existsSync(door)) sourceProblems.push(`${door}: not there; it must name every function of the add-in`);
  // The generator fails without a file name on some of these, so they are reported first and alone.
  if (sourceProblems.length > 0) return { problems: sourceProblems };

  const holding = files.filter(({ declared }) => declared.length > 0).map(({ file }) => file);
  if (holding.length === 0) return { problems: [`${folder}: no function carries @customfunction`] };
  const result = await generateCustomFunctionsMetadata(holding);
  if (result.errors.length > 0) return { problems: result.errors.map((error) => `metadata generator: ${error}`) };

  const metadata = readMetadata(result.metadataJson);
  const problems = [
    ...findDuplicates(metadata.functions.map(({ id }) => id)).map((id) => `id ${id}: given to two functions`),
    ...findDuplicates((metadata.enums ?? []).map(({ id }) => id)).map((id) => `list of choices ${id}: declared twice`),
    ...metadata.functions.flatMap(checkEntry),
    ...checkDoor(
      door,
      result.associate.map(({ functionName, id }) => ({ functionName, id })),
    ),
  ];
  return problems.length > 0 ? { problems } : { text: finishMetadata(metadata), problems: [] };
}

/** What is listed must be exported, and the reverse; the id is the exported name in upper case, for that is how it is associated. */
function checkDoor(door: string, listed: readonly { functionName: string; id: string }[]): string[] {
  const { names, problems } = readExportedNames(door);
  const listedNames = listed.map(({ functionName }) => functionName);
  return [
    ...problems,
    ...listedNames
      .filter((name) => !names.includes(name))
      .map((name) => `${name}: listed, but ${door} does not export it`),
    ...names
      .filter((name) => !listedNames.includes(name))
      .map((name) => `${name}: exported by ${door}, but carries no @customfunction`),
    ...listed
      .filter(({ functionName, id }) => functionName.toUpperCase() !== id)
      .map(({ functionName, id }) => `${functionName}: its id ${id} is not its name in upper case`),
  ];
}

/** Adds what the generator cannot express: lists of suggestions, and each function's help page. */
function finishMetadata(metadata: Metadata): string {
  const functions = [...metadata.functions]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((entry) => ({
      ...entry,
      // Line breaks in a comment are just wrapping, and should not show in a cell's help.
      description: joinIntoOneLine(entry.description),
      helpUrl: `${placeholderBase}/help/${entry.id}.html`,
      parameters: entry.parameters.map((parameter) => ({
        ...parameter,
        description: joinIntoOneLine(parameter.description),
        ...listSuggestions(entry.id, parameter),
      })),
    }));
  const used = new Set(
    functions.flatMap(({ parameters }) => parameters.flatMap(({ customEnumId = [] }) => customEnumId)),
  );
  const enums = [...used].sort().map(listOf);
  const whole = { ...metadata, functions, ...(enums.length > 0 && { enums }) };
  return `${JSON.stringify(whole, null, 2)}\n`;
}

/**
 * Excel suggests the choices of a single text; a range of them has no such list. An optional text is of type "any" to the generator, which takes
 * `string | null` for a union, and Excel gives no list to that type.
 */
function listSuggestions(id: string, { name, type, dimensionality }: ParameterEntry): Partial<ParameterEntry> {
  const list = choiceListOf(id, name);
  const isText = type === "string" || type === "any";
  return list === undefined || !isText || dimensionality === "matrix" ? {} : { type: "string", customEnumId: list };
}

/** A list of suggestions in the form that Excel reads. */
function listOf(id: string): object {
  const values = choiceLists[id]!.map(({ word, meaning }) => ({ name: word, stringValue: word, tooltip: meaning }));
  return { id, type: "string", values };
}

function joinIntoOneLine(text = ""): string {
  return text.replace(/\s+/g, " ").trim();
}
