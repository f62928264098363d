import { longestFormula, quotedName, quotedText } from "./enclosed";
import { withoutFilePrefixes } from "./prefixes";

const texts = `${quotedText}|${quotedName}`;
const cell = /\$?[A-Z]{1,3}\$?[0-9]{1,7}/.source;
const stored = new RegExp(
  `${texts}|_xldudf_([A-Z]+)_(?=[A-Z]+\\()|ANCHORARRAY\\(((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell})\\)|_FV\\(((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell}),"(\\w+)"\\)`,
  "giu",
);

/** A formula as a person types and sees it in Excel, with its "=": STILLAIR.PASSFAIL(…), A1#, A1.n50. */
export function asTyped(text: string): string {
  if (text.length > longestFormula) return `=${text}`;
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

const typedParts = new RegExp(
  `\\bSTILLAIR\\.(?=[A-Z]+\\()|((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell})\\.([a-z]\\w*)(?!\\()|${texts}`,
  "giu",
);

/** The inverse of asTyped, as far as a formula that calls the add-in goes: without its "=", in the form that a file holds. */
export function asStored(typed: string): string {
  const bare = typed.replace(/^=/, "");
  if (bare.length > longestFormula) return bare;
  return bare.replace(typedParts, (found: string, card?: string, property?: string) => {
    if (card !== undefined) return `_FV(${card},"${property ?? ""}")`;
    return /^stillair\.$/i.test(found) ? "_xldudf_STILLAIR_" : found;
  });
}
