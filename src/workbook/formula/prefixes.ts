// A string literal or a quoted sheet name (left alone), or one of the prefixes that only the file format has.
const prefixes = /"(?:[^"]|"")*"|'(?:[^']|'')*'|_xlfn\.|_xlws\.|_xlpm\.|_xleta\.|\[\d+\]!(?=_xldudf_)/gi;
// A reference to a deleted range keeps the name of its sheet, which says nothing any more.
const lostReference = /"(?:[^"]|"")*"|(?:'(?:[^']|'')*'|[\p{L}\p{N}_.]+)!#REF!/gu;

/** A formula as stored, without the prefixes that newer functions, lambda parameters and add-in functions carry in a file. */
export function withoutFilePrefixes(text: string): string {
  const bare = text.includes("_xl")
    ? text.replace(prefixes, (found) => (found.startsWith('"') || found.startsWith("'") ? found : ""))
    : text;
  return bare.includes("!#REF!")
    ? bare.replace(lostReference, (found) => (found.startsWith('"') ? found : "#REF!"))
    : bare;
}
