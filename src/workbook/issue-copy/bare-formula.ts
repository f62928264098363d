import { longestFormula } from "../formula/parse/enclosed";
import { withoutFilePrefixes } from "../formula/parse/prefixes";

// A text, a quoted sheet, anything in brackets, a word (a reference, a name, a function), rows, a number, blanks.
const parts =
  /("(?:[^"]|"")*")|'((?:[^']|'')*)'|\[(?:[^[\]]|\[[^\]]*\])*\]|(TRUE|FALSE)\(\)|[\p{L}_$\\][\p{L}\p{N}_.$\\?]*|\$?\d+:\$?\d+|((?:\d+\.?\d*|\.\d+)(?:E[+-]?\d+)?)|\s+/giu;

/**
 * A formula as every program that saves it means it: without the prefixes of the file format, blanks outside texts, the parentheses of TRUE() and
 * FALSE() and the quotes of sheet names; letters outside texts in upper case; each number as `written` gives it (9E+99 and 9E+099 are one).
 */
export function bareFormula(text: string, written: (number: number) => string): string {
  if (text.length > longestFormula) return text;
  return withoutFilePrefixes(text).replace(
    parts,
    (part, words?: string, sheet?: string, truth?: string, number?: string) => {
      if (words !== undefined) return words;
      if (number !== undefined) return written(Number(number));
      return (sheet ?? truth ?? part.trim()).toUpperCase();
    },
  );
}
