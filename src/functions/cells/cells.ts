import { invalid, missing } from "./rule-codes";

/** Any argument as rows of cells; a single value is a range of one cell, an omitted one has no cells. */
export function rowsOf(argument: unknown): unknown[][] {
  if (argument === null || argument === undefined) return [];
  if (!Array.isArray(argument)) return [[argument]];
  const rows = argument as unknown[];
  return rows.every(Array.isArray) ? rows : [rows];
}

/** True where the argument was left out, which is not the same as pointing at a blank cell. */
export function isOmitted(argument: unknown): boolean {
  return rowsOf(argument).length === 0;
}

/** Blank under every host's convention for cells where 0 is a value. */
export function isBlank(cell: unknown): boolean {
  return cell === null || cell === undefined || (typeof cell === "string" && cell.trim() === "");
}

/** Blank where a 0 can only be a blank cell that a host sent as 0. */
export function isBlankOrZero(cell: unknown): boolean {
  return isBlank(cell) || cell === 0;
}

const errorText =
  /^#(NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|SPILL!|CALC!|FIELD!|BUSY!|BLOCKED!|CONNECT!|UNKNOWN!)$/;

function errorIn(cell: unknown): string | undefined {
  if (typeof cell === "string") return errorText.test(cell) ? cell : undefined;
  if (typeof cell !== "object" || cell === null) return undefined;
  const { code, type, basicType, basicValue } = cell as Record<string, unknown>;
  if (type === "Error" || basicType === "Error") return typeof basicValue === "string" ? basicValue : "#VALUE!";
  return typeof code === "string" && code.startsWith("#") ? code : undefined;
}

/**
 * The plain value of a cell: cards give the number or text that they show, errors are passed on, #N/A as "missing", any other as "invalid".
 */
export function plain(cell: unknown, argument: string, row?: number): unknown {
  if (typeof cell === "number") return cell;
  const error = errorIn(cell);
  if (error !== undefined) {
    throw (error === "#N/A" ? missing : invalid)(argument, "cellError", { error }, row);
  }
  if (typeof cell === "object" && cell !== null && "basicValue" in cell) return cell.basicValue;
  return cell;
}

/** A number from a cell, undefined where it is blank. Errors: text, yes/no, a number that is not finite. */
export function numberIn(cell: unknown, argument: string, row?: number): number | undefined {
  const value = plain(cell, argument, row);
  if (isBlank(value)) return undefined;
  if (typeof value === "number" && Number.isFinite(value)) return value;
  throw invalid(argument, "numberNeeded", { given: value }, row);
}

/**
 * Text from a cell in lower case, undefined where it is blank; a 0, as a number or as text, is a blank cell that the host sent as 0. A logical value is
 * yes or no, also where the host hands it to a text argument as "TRUE".
 */
export function wordIn(cell: unknown, argument: string, row?: number): string | undefined {
  const value = plain(cell, argument, row);
  if (isBlankOrZero(value) || value === "0") return undefined;
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") {
    const word = value.trim().toLowerCase();
    return word === "true" ? "yes" : word === "false" ? "no" : word;
  }
  throw invalid(argument, "wordsNeeded", { given: value }, row);
}

/** One of the words allowed, in any letter case, "…isation" or "…ization"; undefined where the cell is blank. */
export function oneOf<Word extends string>(
  cell: unknown,
  words: readonly Word[],
  argument: string,
  row?: number,
): Word | undefined {
  const given = wordIn(cell, argument, row);
  if (given === undefined) return undefined;
  const wanted = given.replace(/isation$/, "ization");
  const found = words.find((word) => word.toLowerCase() === wanted);
  if (found === undefined) {
    throw invalid(argument, "notOneOf", { given, words }, row);
  }
  return found;
}

/** The only cell of an argument that takes one value. Errors: more than one cell, of which all but one would be silently ignored. */
export function onlyCell(argument: unknown, name: string): unknown {
  const cells = rowsOf(argument).flat();
  if (cells.length > 1) throw invalid(name, "oneCell", { count: cells.length });
  return cells[0];
}

/** A single choice and its default if blank; without a default the choice is required, and a blank is missing. */
export function choice<Word extends string>(
  argument: unknown,
  words: readonly Word[],
  name: string,
  otherwise?: Word,
): Word {
  const found = oneOf(onlyCell(argument, name), words, name) ?? otherwise;
  if (found === undefined) throw missing(name, "choiceNeeded", { words });
  return found;
}

/** A value that another argument needs. Errors: not given (missing). */
export function neededWith<Value>(value: Value | undefined, name: string, other: string): Value {
  if (value === undefined) throw missing(name, "neededWith", { other });
  return value;
}

/** Two arguments that count only together; undefined where neither is given. Errors: one without the other (missing). */
export function bothOrNone<Value>(
  one: Value | undefined,
  name: string,
  other: Value | undefined,
  otherName: string,
): readonly [Value, Value] | undefined {
  if (one === undefined && other === undefined) return undefined;
  return [neededWith(one, name, otherName), neededWith(other, otherName, name)];
}

/** Whether a table gets its headings, "yes" or "no"; blank is no. */
export function wantsHeadings(argument: unknown): "yes" | "no" {
  return choice(argument, ["yes", "no"], "headings", "no");
}

/** The numbers of a range in reading order, blanks left out, 0 a value. */
export function numbersIn(argument: unknown, name: string): number[] {
  // Plain loops: a whole column has a million rows, and makes no array for each.
  const numbers: number[] = [];
  for (const [index, cells] of rowsOf(argument).entries()) {
    for (const cell of cells) {
      const value = numberIn(cell, name, index + 1);
      if (value !== undefined) numbers.push(value);
    }
  }
  return numbers;
}

/** A single optional number. */
export function optionalNumber(argument: unknown, name: string): number | undefined {
  return numberIn(onlyCell(argument, name), name);
}
