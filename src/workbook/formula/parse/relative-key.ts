import { columnOfLetters } from "./address";
import { inBrackets, longestFormula, quotedName, quotedText } from "./enclosed";

// What must be left alone (text, quoted names, anything in brackets, words and calls), or a reference: $A$1, $A:$B, $1:$2.
const partsWith = (letter: string, flags: string): RegExp =>
  new RegExp(
    [
      quotedText,
      quotedName,
      inBrackets,
      `\\$?[A-Za-z]{1,3}\\$?[0-9]{1,7}(?![${letter}0-9_.(!])`,
      `\\$?[A-Za-z]{1,3}:\\$?[A-Za-z]{1,3}(?![${letter}0-9_.(!])`,
      `\\$?[0-9]{1,7}:\\$?[0-9]{1,7}(?![${letter}0-9_.])`,
      `[${letter}_\\\\][${letter}0-9_.\\\\?]*`,
      "[0-9.]+",
    ].join("|"),
    flags,
  );
const asciiParts = partsWith("A-Za-z", "g");
const parts = partsWith("\\p{L}\\p{N}", "gu");
const ascii = /^[\x20-\x7e]*$/;
const cell = /^(\$?)([A-Za-z]{1,3})(\$?)([0-9]{1,7})$/;
const edge = /^(\$?)([A-Za-z]{1,3}|[0-9]{1,7})$/;

/**
 * A key that is the same for formulas with the same meaning relative to their cells, so that a column of copied formulas
 * is parsed once: =A1*2 in B1 and =A2*2 in B2 share one. A formula that is too long to be read is its own key.
 */
export function relativeKey(text: string, row: number, column: number): string {
  if (text.length > longestFormula) return text;
  return text.replace(ascii.test(text) ? asciiParts : parts, (part) => {
    const first = part.charCodeAt(0);
    if (first === 34 || first === 39 || first === 91) return part;
    const match = cell.exec(part);
    if (match) {
      const columnIndex = columnOfLetters(match[2] ?? "");
      const rowIndex = Number(match[4]) - 1;
      return `{${match[1] ? `$${columnIndex}` : columnIndex - column},${match[3] ? `$${rowIndex}` : rowIndex - row}}`;
    }
    const [from = "", to = ""] = part.split(":");
    const start = edge.exec(from);
    const end = edge.exec(to);
    return start && end ? `{${relativeEdge(start, row, column)}:${relativeEdge(end, row, column)}}` : part;
  });
}

function relativeEdge(match: RegExpExecArray, row: number, column: number): string {
  const name = match[2] ?? "";
  const isRow = /^[0-9]/.test(name);
  const index = isRow ? Number(name) - 1 : columnOfLetters(name);
  return (isRow ? "r" : "c") + (match[1] ? `$${index}` : String(index - (isRow ? row : column)));
}
