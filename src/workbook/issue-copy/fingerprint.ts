import { cellKey, ErrorValue, type Area, type Book, type CellValue } from "../model";
import { cellAddress } from "../formula/address";
import { evaluateBook } from "../formula/evaluate";
import { withoutFilePrefixes } from "../formula/prefixes";
import { readIssueMark } from "./mark";
import { sha256 } from "./sha256";

/**
 * The fingerprint of an issue copy: SHA-256, in hexadecimal, of the lines below in UTF-8, each ended by a line feed. "" for a book that is
 * no issue copy.
 *
 * 1. `stillair issued copy, form 2`, `issued <yyyy-mm-dd>`, `method <version>`.
 * 2. For each sheet in the workbook's order, the one with the mark left out: `sheet <name>`, then a line for each cell that holds
 *    something, by rows and then by columns:
 *    - a typed cell: `<A1> = <value>`; a number to 15 significant digits, which is all that Excel keeps of what is typed;
 *    - a frozen cell: `<A1> = <value>`; a number as that of a formula, since programs that save the copy keep 15 digits and round them differently;
 *    - a cell with a formula: `<A1> : <formula> = <value>`; a cell that an array formula fills: `<A1> < <A1 of the formula> = <value>`; numbers to 10
 *      significant digits and 0 below 1e-12, since programs differ in the last digits. The formula is as stored, without the prefixes of the
 *      file format, without blanks outside texts, and TRUE() and FALSE() without their parentheses, which some programs add. Where the value depends on the clock, `= clock` stands instead.
 *    Values: numbers as JavaScript writes them, texts, names and formulas as JSON strings, TRUE, FALSE, errors by their code. An empty text
 *    counts as a blank cell.
 * 3. `frozen`, then for each line of the list of frozen formulas, in its order: `<sheet> <area> <kind> <formula>`, the texts as JSON strings.
 *
 * It tells whether a copy is as it was issued. It is no signature: whoever has this program can compute it for another copy.
 */
export function fingerprintOf(book: Book): string {
  const mark = readIssueMark(book);
  if (!mark) return "";
  const lines = ["stillair issued copy, form 2", `issued ${mark.issued}`, `method ${mark.methodVersion}`];
  const clocked = cellsOnClock(book);
  const frozen = listedCells(mark.formulas);
  for (const [index, sheet] of book.sheets.entries()) {
    if (index === mark.sheet) continue;
    lines.push(`sheet ${JSON.stringify(sheet.name)}`);
    const filled = filledCells(sheet);
    for (const key of [...sheet.cells.keys()].sort((a, b) => a - b)) {
      const { row, column, value, formula } = sheet.cells.get(key)!;
      const address = cellAddress(row, column);
      const owner = filled.get(key);
      const isTyped = !formula && owner === undefined && !frozen.has(`${sheet.name} ${key}`);
      if (!formula && (value ?? "") === "") continue;
      const result = clocked.has(`${index} ${key}`) ? "clock" : valueText(value, isTyped ? 15 : 10);
      const source = formula
        ? ` : ${JSON.stringify(bareFormula(formula.text))}`
        : owner === undefined
          ? ""
          : ` < ${owner}`;
      lines.push(`${address}${source} = ${result}`);
    }
  }
  lines.push("frozen");
  for (const { sheet, area, kind, formula } of mark.formulas)
    lines.push([JSON.stringify(sheet), areaText(area), JSON.stringify(kind), JSON.stringify(formula)].join(" "));
  return sha256(lines.map((line) => `${line}\n`).join(""));
}

/** Smaller than any quantity that a workbook shows: what is left of a cancellation. */
const nothing = 1e-12;

function valueText(value: CellValue, digits: 10 | 15): string {
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "number")
    return digits === 10 && Math.abs(value) < nothing ? "0" : String(Number(value.toPrecision(digits)));
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return JSON.stringify(value ?? "");
}

const bareFormula = (text: string): string =>
  withoutFilePrefixes(text).replace(
    /("(?:[^"]|"")*"|'(?:[^']|'')*')|\b(TRUE|FALSE)\(\)|\s+/g,
    (_, quoted?: string, word?: string) => quoted ?? word ?? "",
  );

/** The cells that the listed formulas filled before they were frozen, as sheet and key. */
function listedCells(formulas: NonNullable<ReturnType<typeof readIssueMark>>["formulas"]): Set<string> {
  const found = new Set<string>();
  for (const { sheet, area } of formulas)
    for (let row = area.top; row <= area.bottom; row += 1)
      for (let column = area.left; column <= area.right; column += 1) found.add(`${sheet} ${cellKey(row, column)}`);
  return found;
}

const areaText = ({ top, left, bottom, right }: Area): string =>
  `${cellAddress(top, left)}:${cellAddress(bottom, right)}`;

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
