import { longestFormula, quotedName, quotedText } from "./enclosed";

// A string literal or a quoted sheet name (left alone), or one of the prefixes that only the file format has.
const prefixes = new RegExp(
  `${quotedText}|${quotedName}|_xlfn\\.|_xlws\\.|_xlpm\\.|_xleta\\.|\\[\\d+\\]!(?=_xldudf_)`,
  "gi",
);
// A reference to a deleted range keeps the name of its sheet, which says nothing any more.
const lostReference = new RegExp(`${quotedText}|(?:'(?:[^']|'')*'|(?<![\\p{L}\\p{N}_.])[\\p{L}\\p{N}_.]+)!#REF!`, "gu");

/** A parameter named r or c, or a mix of the two letters, which without its prefix would read as a row or column. */
const shortParameters = new RegExp(`${quotedText}|${quotedName}|_xlpm\\.(?=[rc]+(?![\\p{L}\\p{N}_.]))`, "giu");

/** A formula as stored, ready to be parsed: without the prefixes of the file format, and with parameters that are no addresses. */
export function parsable(text: string): string {
  const named = text.includes("_xlpm.")
    ? text.replace(shortParameters, (found) => (/^["']/.test(found) ? found : "_xlpm_"))
    : text;
  return withoutFilePrefixes(named);
}

/** A formula as stored, without the prefixes that newer functions, lambda parameters and add-in functions carry in a file. */
export function withoutFilePrefixes(text: string): string {
  if (text.length > longestFormula) return text;
  const bare = text.includes("_xl")
    ? text.replace(prefixes, (found) => (found.startsWith('"') || found.startsWith("'") ? found : ""))
    : text;
  return bare.includes("!#REF!")
    ? bare.replace(lostReference, (found) => (found.startsWith('"') ? found : "#REF!"))
    : bare;
}
