/**
 * The longest formula accepted. Excel allows 8 192 visible characters; with the prefixes that a file adds to each
 * name (ANCHORARRAY for #, _xlpm. before each parameter) they may be seven times as many.
 */
export const longestFormula = 65_536;

/** A quoted text; if unclosed it runs to the end, so that each character is read once. */
export const quotedText = /"[^"]*(?:""[^"]*)*(?:"|$)/.source;

/** A sheet's name in apostrophes. */
export const quotedName = /'[^']*(?:''[^']*)*(?:'|$)/.source;

/** A table's columns or a workbook's number, in brackets. */
export const inBrackets = /\[[^[\]]*(?:\[[^\]]*(?:\]|$)[^[\]]*)*(?:\]|$)/.source;

const quotedTexts = new RegExp(quotedText, "g");
const enclosed = new RegExp([quotedText, quotedName, inBrackets].join("|"), "g");

/** A formula with "" for each text, so that what is searched for is found in the formula alone; nothing of one that is too long. */
export const blankTexts = (formula: string): string =>
  formula.length > longestFormula ? "" : formula.replace(quotedTexts, '""');

/** Why a formula is not read at all, undefined for any other. */
export function findRefusal(formula: string): string | undefined {
  if (formula.length > longestFormula) return `a formula of more than ${longestFormula} characters`;
  return hasStrayApostrophe(formula)
    ? "the formula cannot be parsed: an apostrophe encloses no sheet's name"
    : undefined;
}

/** The parser looks for the end of a name behind every apostrophe: thousands of them without a name would take it minutes. */
function hasStrayApostrophe(formula: string): boolean {
  if (!formula.includes("'")) return false;
  for (const { 0: part, index } of formula.matchAll(enclosed))
    if (part.startsWith("'") && !/[!:]/.test(formula[index + part.length] ?? "")) return true;
  return false;
}

// A string literal or a quoted sheet name (left alone), or one of the prefixes that only the file format has.
const prefixes = new RegExp(
  `${quotedText}|${quotedName}|_xlfn\\.|_xlws\\.|_xlpm\\.|_xlop\\.|_xleta\\.|\\[\\d+\\]!(?=_xldudf_)`,
  "gi",
);
// A reference to a deleted range keeps the name of its sheet, which says nothing any more.
const lostReference = new RegExp(`${quotedText}|(?:'(?:[^']|'')*'|(?<![\\p{L}\\p{N}_.])[\\p{L}\\p{N}_.]+)!#REF!`, "gu");

/** A parameter named r or c, or a mix of the two letters, which without its prefix would read as a row or column. */
const shortParameters = new RegExp(`${quotedText}|${quotedName}|_xlpm\\.(?=[rc]+(?![\\p{L}\\p{N}_.]))`, "giu");

/** An optional parameter, [b] as typed. */
const optionalParameters = new RegExp(`${quotedText}|${quotedName}|_xlop\\.`, "giu");

/** Begins the name of an optional parameter in a formula that is ready to be parsed. */
export const optionalMark = "_xlop_";

/** A formula as stored, ready to be parsed: without the prefixes of the file format, and with parameters that are no addresses. */
export function prepareForParsing(text: string): string {
  const mark = (pattern: RegExp, prefix: string) => (given: string) =>
    given.replace(pattern, (found) => (/^["']/.test(found) ? found : prefix));
  const named = text.includes("_xlpm.") ? mark(shortParameters, "_xlpm_")(text) : text;
  return stripFilePrefixes(named.includes("_xlop.") ? mark(optionalParameters, optionalMark)(named) : named);
}

/** A formula as stored, without the prefixes that newer functions, lambda parameters and add-in functions carry in a file. */
export function stripFilePrefixes(text: string): string {
  if (text.length > longestFormula) return text;
  const bare = text.includes("_xl")
    ? text.replace(prefixes, (found) => (found.startsWith('"') || found.startsWith("'") ? found : ""))
    : text;
  return bare.includes("!#REF!")
    ? bare.replace(lostReference, (found) => (found.startsWith('"') ? found : "#REF!"))
    : bare;
}

const quotations = `${quotedText}|${quotedName}`;
const cell = /\$?[A-Z]{1,3}\$?[0-9]{1,7}/.source;
const stored = new RegExp(
  `${quotations}|_xldudf_([A-Z]+)_(?=[A-Z]+\\()|ANCHORARRAY\\(((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell})\\)|_FV\\(((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell}),"(\\w+)"\\)`,
  "giu",
);

/** A formula as typed and shown in Excel, with its "=": STILLAIR.PASSFAIL(…), A1#, A1.n50. */
export function toTypedForm(text: string): string {
  if (text.length > longestFormula) return `=${text}`;
  const typed = stripFilePrefixes(text).replace(
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
  `\\bSTILLAIR\\.(?=[A-Z]+\\()|((?:(?:'[^']+'|[\\p{L}\\p{N}_.]+)!)?${cell})\\.([a-z]\\w*)(?!\\()|${quotations}`,
  "giu",
);

/** The inverse of toTypedForm, as far as a formula that calls the add-in goes: without its "=", in the form that a file holds. */
export function toStoredForm(typed: string): string {
  const bare = typed.replace(/^=/, "");
  if (bare.length > longestFormula) return bare;
  return bare.replace(typedParts, (found: string, card?: string, property?: string) => {
    if (card !== undefined) return `_FV(${card},"${property ?? ""}")`;
    return /^stillair\.$/i.test(found) ? "_xldudf_STILLAIR_" : found;
  });
}
