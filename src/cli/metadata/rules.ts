import { builtInNames } from "./built-in-names";
import type { FunctionEntry } from "./entry";
import { longestShown, sentencesOf } from "./sentences";

const lastColumn = 16_384; // XFD
const lastRow = 1_048_576;
const mostParameters = 8;

/** True where Excel would read the name as a cell: A1 to XFD1048576, a row or column in R1C1 notation, or R, C, RC. */
export function looksLikeCell(name: string): boolean {
  const upper = name.toUpperCase();
  if (/^(R\d*)?(C\d*)?$/.test(upper)) return true;
  const match = /^([A-Z]{1,3})(\d{1,7})$/.exec(upper);
  if (!match?.[1] || !match[2]) return false;
  const row = Number(match[2]);
  return columnNumber(match[1]) <= lastColumn && row >= 1 && row <= lastRow;
}

function columnNumber(letters: string): number {
  return [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
}

/** One sentence for each rule that an id or a name breaks. */
export function nameProblems(kind: "id" | "name", name: string): string[] {
  const problems: string[] = [];
  const say = (rule: string): void => void problems.push(`${kind} ${name}: ${rule}`);
  if (name.length < 3) say("is shorter than three characters");
  if (name.includes(".")) say("has a dot, which Excel stores as an underscore");
  if (looksLikeCell(name)) say("looks like the address of a cell");
  if (builtInNames.has(name.toUpperCase())) say("is the name of one of Excel's own functions");
  if (name !== name.toUpperCase()) say("is not in upper case");
  return problems;
}

/** One sentence for each rule of the catalogue that an entry of functions.json breaks. */
export function entryProblems(entry: FunctionEntry): string[] {
  const problems = nameProblems("id", entry.id);
  if (entry.name !== entry.id) problems.push(...nameProblems("name", entry.name));
  if (!entry.description?.trim()) problems.push(`${entry.id}: has no description`);
  const [sentence = ""] = sentencesOf(entry.description?.replace(/\s+/g, " ") ?? "");
  if (sentence.length > longestShown)
    problems.push(`${entry.id}: the first sentence has ${sentence.length} characters, more than ${longestShown}`);
  if (entry.parameters.length > mostParameters)
    problems.push(`${entry.id}: has ${entry.parameters.length} parameters, more than ${mostParameters}`);
  let optionalSeen = false;
  for (const parameter of entry.parameters) {
    const what = `${entry.id}: parameter ${parameter.name}`;
    if (!parameter.description?.trim()) problems.push(`${what} has no description`);
    if ((parameter.description?.length ?? 0) > longestShown)
      problems.push(`${what} has a description of more than ${longestShown} characters`);
    if (!/^[a-z]+(_[a-z]+)*$/.test(parameter.name)) problems.push(`${what} is not lower_case_with_underscores`);
    if (optionalSeen && !parameter.optional) problems.push(`${what} is required but follows an optional one`);
    optionalSeen ||= parameter.optional === true;
  }
  return problems;
}

/** Values that occur more than once; Excel keeps only one function of an id and says nothing. */
export function duplicates(values: readonly string[]): string[] {
  return [...new Set(values.filter((value, index) => values.indexOf(value) !== index))];
}
