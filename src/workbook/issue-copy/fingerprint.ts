import { evaluateBook } from "../formula/evaluate";
import { formatCellAddress } from "../book/address";
import { longestFormula, stripFilePrefixes } from "../formula/parse/formula-text";
import { type Book, buildCellKey, type CellValue, ErrorValue, type Formula } from "../model";
import { sha256 } from "../sha256";
import {
  chooseEdge,
  type Counted,
  formulasName,
  type IssueMark,
  type ListedFormula,
  markName,
  readIssueMark,
  roundToStep,
} from "./mark";

/**
 * The fingerprint of an issue copy: SHA-256, in hexadecimal, of the lines below in UTF-8, each ended by a line feed. "" for a book that is
 * not an issue copy, or whose form of fingerprint is unknown to this version.
 *
 * 1. `stillair issued copy, form 3, edge <its edge>`, `issued <yyyy-mm-dd>`, `method <version>`.
 * 2. For each sheet in the workbook's order, the one with the mark left out: `sheet <name>`, then a line for each cell that holds
 *    something, by rows and then by columns:
 *    - a typed or frozen cell: `<A1> = <value>`;
 *    - a cell with a formula: `<A1> : <formula> = <value>`; a cell that an array formula fills: `<A1> < <A1 of the formula> = <value>`. The formula is
 *      as normalizeFormula gives it, none if it is just TRUE, FALSE or an error. If the value depends on the clock, `= clock` is used instead.
 *    Values: numbers, texts, names and formulas as JSON strings, TRUE, FALSE, errors by their code. An empty text counts as a blank cell. Of a number
 *    that is typed or written in a formula 11 significant digits count, of a result or a frozen value 10, and 0 below 1e-12, since programs
 *    differ in the last digits: truncated as in stepped, with the edge given in the mark.
 * 3. `names`, then for each defined name, Excel's own and the mark's left out, by name and sheet: `<name> <sheet, "" for all> : <formula>`.
 * 4. `list`, then the cells of the sheet with the mark as in 2, the fingerprint and its form left out.
 *
 * It shows whether a copy is unchanged since issue. It is not a signature: anyone with this program can compute it for another copy.
 */
export function computeFingerprint(book: Book): string {
  const mark = readIssueMark(book);
  return mark?.edge === undefined ? "" : hashFingerprint(book, mark, mark.edge);
}

/** The fingerprint of a copy at issue, with the edge suited to its numbers. */
export function createFingerprint(
  book: Book,
  mark: IssueMark,
): { readonly fingerprint: string; readonly edge: number } {
  const numbers: Counted[] = [];
  writeFingerprintLines(book, mark, (value, digits) => {
    numbers.push({ value, digits });
    return "";
  });
  const edge = chooseEdge(numbers);
  return { fingerprint: hashFingerprint(book, mark, edge), edge };
}

function hashFingerprint(book: Book, mark: IssueMark, edge: number): string {
  const lines = [
    `stillair issued copy, form 3, edge ${edge}`,
    `issued ${mark.issued}`,
    `method ${mark.methodVersion}`,
    ...writeFingerprintLines(book, mark, (value, digits) => roundToStep(value, digits, edge)),
  ];
  return sha256(lines.map((line) => `${line}\n`).join(""));
}

type Written = (value: number, digits: number) => string;

const [typedDigits, resultDigits] = [11, 10];
/** Smaller than any quantity a workbook shows: the residue of a cancellation. */
const nothing = 1e-12;

/** What the fingerprint of a book covers, in the lines described at computeFingerprint; `written` gives the text of each number. */
function writeFingerprintLines(book: Book, mark: IssueMark, written: Written): string[] {
  const clocked = findCellsOnClock(book);
  const frozen = collectListedCells(mark.formulas);
  const writeFormula = (text: string): string =>
    JSON.stringify(normalizeFormula(text, (number) => written(number, typedDigits)));
  const writeSheetLines = (index: number, leftOut?: ReadonlySet<number>): string[] => {
    const sheet = book.sheets[index]!;
    const filled = collectFilledCells(sheet);
    const lines: string[] = [];
    for (const key of [...sheet.cells.keys()].sort((a, b) => a - b)) {
      const { row, column, value, formula } = sheet.cells.get(key)!;
      if ((!formula && (value ?? "") === "") || leftOut?.has(key)) continue;
      const owner = filled.get(key);
      const isTyped = !formula && owner === undefined && !frozen.has(`${sheet.name} ${key}`);
      const result = clocked.has(`${index} ${key}`) ? "clock" : writeValue(value, isTyped, written);
      lines.push(`${formatCellAddress(row, column)}${writeSource(formula, owner, writeFormula)} = ${result}`);
    }
    return lines;
  };
  return [
    ...book.sheets.flatMap(({ name }, index) =>
      index === mark.sheet ? [] : [`sheet ${JSON.stringify(name)}`, ...writeSheetLines(index)],
    ),
    "names",
    ...writeNames(book, writeFormula),
    "list",
    ...writeSheetLines(mark.sheet, mark.ownCells),
  ];
}

/** Some programs save a typed TRUE or #N/A as a formula of just that value. */
const constant = /^\s*(?:(?:TRUE|FALSE)(?:\(\))?|#[A-Z0-9/]+[!?]?)\s*$/i;

function writeSource(formula: Formula | undefined, owner: string | undefined, text: (text: string) => string): string {
  if (formula && constant.test(formula.text)) return "";
  if (formula) return ` : ${text(formula.text)}`;
  return owner === undefined ? "" : ` < ${owner}`;
}

function writeValue(value: CellValue, isTyped: boolean, written: Written): string {
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value !== "number") return JSON.stringify(value ?? "");
  if (isTyped) return written(value, typedDigits);
  return Math.abs(value) < nothing ? "0" : written(value, resultDigits);
}

function writeNames({ names, sheets }: Book, text: (text: string) => string): string[] {
  return names
    .filter(({ name }) => !name.startsWith("_xlnm.") && ![markName, formulasName].includes(name))
    .map((one) => ({
      name: JSON.stringify(one.name.toLowerCase()),
      sheet: JSON.stringify(one.sheet === undefined ? "" : (sheets[one.sheet]?.name ?? "")),
      text: one.text,
    }))
    .sort((a, b) => compareTexts(a.name, b.name) || compareTexts(a.sheet, b.sheet))
    .map((one) => `${one.name} ${one.sheet} : ${text(one.text)}`);
}

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The cells filled by the listed formulas before freezing, as sheet and key. */
function collectListedCells(formulas: readonly ListedFormula[]): Set<string> {
  const found = new Set<string>();
  for (const { sheet, area } of formulas)
    for (let row = area.top; row <= area.bottom; row += 1)
      for (let column = area.left; column <= area.right; column += 1)
        found.add(`${sheet} ${buildCellKey(row, column)}`);
  return found;
}

/** Cells filled by an array formula, with the formula's address. */
function collectFilledCells({ cells }: Book["sheets"][number]): Map<number, string> {
  const filled = new Map<number, string>();
  for (const { row, column, formula } of cells.values()) {
    const { top, left, bottom, right } = formula?.array ?? { top: 0, left: 0, bottom: -1, right: -1 };
    for (let down = top; down <= bottom; down += 1)
      for (let across = left; across <= right; across += 1)
        if (down !== row || across !== column) filled.set(buildCellKey(down, across), formatCellAddress(row, column));
  }
  return filled;
}

/** Any moment will do: only which cells depend on it matters. */
const someMoment = new Date(Date.UTC(2000, 0, 1, 12));

function findCellsOnClock(book: Book): Set<string> {
  const { cells } = evaluateBook(book, { now: someMoment });
  return new Set(
    cells.filter(({ onClock }) => onClock).map(({ sheet, row, column }) => `${sheet} ${buildCellKey(row, column)}`),
  );
}

// A text, a quoted sheet, anything in brackets, a word (a reference, a name, a function), rows, a number, blanks.
const parts =
  /("(?:[^"]|"")*")|'((?:[^']|'')*)'|\[(?:[^[\]]|\[[^\]]*\])*\]|(TRUE|FALSE)\(\)|[\p{L}_$\\][\p{L}\p{N}_.$\\?]*|\$?\d+:\$?\d+|((?:\d+\.?\d*|\.\d+)(?:E[+-]?\d+)?)|\s+/giu;

/**
 * A formula in a form common to all programs that save it: without the prefixes of the file format, blanks outside texts, the parentheses of TRUE() and
 * FALSE() and the quotes of sheet names; letters outside texts in upper case; each number as `written` gives it (9E+99 and 9E+099 are one).
 */
export function normalizeFormula(text: string, written: (number: number) => string): string {
  if (text.length > longestFormula) return text;
  return stripFilePrefixes(text).replace(
    parts,
    (part, words?: string, sheet?: string, truth?: string, number?: string) => {
      if (words !== undefined) return words;
      if (number !== undefined) return written(Number(number));
      return (sheet ?? truth ?? part.trim()).toUpperCase();
    },
  );
}
