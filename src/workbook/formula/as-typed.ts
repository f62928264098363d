import { withoutFilePrefixes } from "./prefixes";

const texts = /"(?:[^"]|"")*"|'(?:[^']|'')*'/.source;
const cell = /\$?[A-Z]{1,3}\$?[0-9]{1,7}/.source;
const stored = new RegExp(
  `${texts}|_xldudf_([A-Z]+)_(?=[A-Z]+\\()|ANCHORARRAY\\(((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell})\\)|_FV\\(((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell}),"(\\w+)"\\)`,
  "giu",
);

/** A formula as a person types and sees it in Excel, with its "=": STILLAIR.PASSFAIL(…), A1#, A1.n50. */
export function asTyped(text: string): string {
  const typed = withoutFilePrefixes(text).replace(
    stored,
    (found: string, space?: string, anchor?: string, card?: string, property?: string) => {
      if (space !== undefined) return `${space}.`;
      if (anchor !== undefined) return `${anchor}#`;
      return card === undefined ? found : `${card}.${property ?? ""}`;
    },
  );
  return `=${typed}`;
}
