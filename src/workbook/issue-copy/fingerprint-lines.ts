import { cellAddress } from "../formula/parse/address";
import { evaluateBook } from "../formula/evaluate";
import { cellKey, ErrorValue, type Book, type CellValue, type Formula } from "../model";
import { bareFormula } from "./bare-formula";
import type { ListedFormula } from "./listed-formulas";
import { formulasName, markName, type IssueMark } from "./mark";

type Written = (value: number, digits: number) => string;

const [typedDigits, resultDigits] = [11, 10];
/** Smaller than any quantity that a workbook shows: what is left of a cancellation. */
const nothing = 1e-12;

/** What the fingerprint of a book covers, in the lines that fingerprintOf describes; `written` gives the text of each number. */
export function fingerprintLines(book: Book, mark: IssueMark, written: Written): string[] {
  const clocked = cellsOnClock(book);
  const frozen = listedCells(mark.formulas);
  const formulaText = (text: string): string =>
    JSON.stringify(bareFormula(text, (number) => written(number, typedDigits)));
  const ofSheet = (index: number, leftOut?: ReadonlySet<number>): string[] => {
    const sheet = book.sheets[index]!;
    const filled = filledCells(sheet);
    const lines: string[] = [];
    for (const key of [...sheet.cells.keys()].sort((a, b) => a - b)) {
      const { row, column, value, formula } = sheet.cells.get(key)!;
      if ((!formula && (value ?? "") === "") || leftOut?.has(key)) continue;
      const owner = filled.get(key);
      const isTyped = !formula && owner === undefined && !frozen.has(`${sheet.name} ${key}`);
      const result = clocked.has(`${index} ${key}`) ? "clock" : valueText(value, isTyped, written);
      lines.push(`${cellAddress(row, column)}${sourceText(formula, owner, formulaText)} = ${result}`);
    }
    return lines;
  };
  return [
    ...book.sheets.flatMap(({ name }, index) =>
      index === mark.sheet ? [] : [`sheet ${JSON.stringify(name)}`, ...ofSheet(index)],
    ),
    "names",
    ...namesOf(book, formulaText),
    "list",
    ...ofSheet(mark.sheet, mark.ownCells),
  ];
}

/** Some programs save a typed TRUE or #N/A as a formula that says just that. */
const constant = /^\s*(?:(?:TRUE|FALSE)(?:\(\))?|#[A-Z0-9/]+[!?]?)\s*$/i;

function sourceText(formula: Formula | undefined, owner: string | undefined, text: (text: string) => string): string {
  if (formula && constant.test(formula.text)) return "";
  if (formula) return ` : ${text(formula.text)}`;
  return owner === undefined ? "" : ` < ${owner}`;
}

function valueText(value: CellValue, isTyped: boolean, written: Written): string {
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value !== "number") return JSON.stringify(value ?? "");
  if (isTyped) return written(value, typedDigits);
  return Math.abs(value) < nothing ? "0" : written(value, resultDigits);
}

function namesOf({ names, sheets }: Book, text: (text: string) => string): string[] {
  return names
    .filter(({ name }) => !name.startsWith("_xlnm.") && ![markName, formulasName].includes(name))
    .map((one) => ({
      name: JSON.stringify(one.name.toLowerCase()),
      sheet: JSON.stringify(one.sheet === undefined ? "" : (sheets[one.sheet]?.name ?? "")),
      text: one.text,
    }))
    .sort((a, b) => compared(a.name, b.name) || compared(a.sheet, b.sheet))
    .map((one) => `${one.name} ${one.sheet} : ${text(one.text)}`);
}

const compared = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The cells that the listed formulas filled before they were frozen, as sheet and key. */
function listedCells(formulas: readonly ListedFormula[]): Set<string> {
  const found = new Set<string>();
  for (const { sheet, area } of formulas)
    for (let row = area.top; row <= area.bottom; row += 1)
      for (let column = area.left; column <= area.right; column += 1) found.add(`${sheet} ${cellKey(row, column)}`);
  return found;
}

/** Cells that an array formula fills, with the address of the formula. */
function filledCells({ cells }: Book["sheets"][number]): Map<number, string> {
  const filled = new Map<number, string>();
  for (const { row, column, formula } of cells.values()) {
    const { top, left, bottom, right } = formula?.array ?? { top: 0, left: 0, bottom: -1, right: -1 };
    for (let down = top; down <= bottom; down += 1)
      for (let across = left; across <= right; across += 1)
        if (down !== row || across !== column) filled.set(cellKey(down, across), cellAddress(row, column));
  }
  return filled;
}

/** Any moment will do: it is only asked which cells depend on it. */
const someMoment = new Date(Date.UTC(2000, 0, 1, 12));

function cellsOnClock(book: Book): Set<string> {
  const { cells } = evaluateBook(book, { now: someMoment });
  return new Set(
    cells.filter(({ onClock }) => onClock).map(({ sheet, row, column }) => `${sheet} ${cellKey(row, column)}`),
  );
}
