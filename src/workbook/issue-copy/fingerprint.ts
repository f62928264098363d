import type { Book } from "../model";
import { fingerprintLines } from "./fingerprint-lines";
import { readIssueMark, type IssueMark } from "./mark";
import { sha256 } from "../sha256";
import { bestEdge, stepped, type Counted } from "./steps";

/**
 * The fingerprint of an issue copy: SHA-256, in hexadecimal, of the lines below in UTF-8, each ended by a line feed. "" for a book that is
 * no issue copy, or whose form of fingerprint this version does not know.
 *
 * 1. `stillair issued copy, form 3, edge <its edge>`, `issued <yyyy-mm-dd>`, `method <version>`.
 * 2. For each sheet in the workbook's order, the one with the mark left out: `sheet <name>`, then a line for each cell that holds
 *    something, by rows and then by columns:
 *    - a typed or frozen cell: `<A1> = <value>`;
 *    - a cell with a formula: `<A1> : <formula> = <value>`; a cell that an array formula fills: `<A1> < <A1 of the formula> = <value>`. The formula is
 *      as bareFormula gives it, none where it is just TRUE, FALSE or an error. Where the value depends on the clock, `= clock` stands instead.
 *    Values: numbers, texts, names and formulas as JSON strings, TRUE, FALSE, errors by their code. An empty text counts as a blank cell. Of a number
 *    that is typed or stands in a formula 11 significant digits count, of a result or a frozen value 10, and 0 below 1e-12, since programs
 *    differ in the last digits: cut down as stepped does it, with the edge that the mark tells.
 * 3. `names`, then for each defined name, Excel's own and the mark's left out, by name and sheet: `<name> <sheet, "" for all> : <formula>`.
 * 4. `list`, then the cells of the sheet with the mark as in 2, the fingerprint and its form left out.
 *
 * It tells whether a copy is as it was issued. It is no signature: whoever has this program can compute it for another copy.
 */
export function fingerprintOf(book: Book): string {
  const mark = readIssueMark(book);
  return mark?.edge === undefined ? "" : fingerprintWith(book, mark, mark.edge);
}

/** The fingerprint that a copy gets when it is issued, with the edge that suits its numbers. */
export function newFingerprint(book: Book, mark: IssueMark): { readonly fingerprint: string; readonly edge: number } {
  const numbers: Counted[] = [];
  fingerprintLines(book, mark, (value, digits) => {
    numbers.push({ value, digits });
    return "";
  });
  const edge = bestEdge(numbers);
  return { fingerprint: fingerprintWith(book, mark, edge), edge };
}

function fingerprintWith(book: Book, mark: IssueMark, edge: number): string {
  const lines = [
    `stillair issued copy, form 3, edge ${edge}`,
    `issued ${mark.issued}`,
    `method ${mark.methodVersion}`,
    ...fingerprintLines(book, mark, (value, digits) => stepped(value, digits, edge)),
  ];
  return sha256(lines.map((line) => `${line}\n`).join(""));
}
