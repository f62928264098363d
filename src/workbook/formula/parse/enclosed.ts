/**
 * The longest formula that is read. Excel takes 8 192 characters as a person sees them; with the prefixes that a file adds to each
 * name (ANCHORARRAY for #, _xlpm. before each parameter) they may be seven times as many.
 */
export const longestFormula = 65_536;

/** A text in quotation marks; what is not closed runs to the end, so that each character is read once. */
export const quotedText = /"[^"]*(?:""[^"]*)*(?:"|$)/.source;

/** A sheet's name in apostrophes. */
export const quotedName = /'[^']*(?:''[^']*)*(?:'|$)/.source;

/** A table's columns or a workbook's number, in brackets. */
export const inBrackets = /\[[^[\]]*(?:\[[^\]]*(?:\]|$)[^[\]]*)*(?:\]|$)/.source;

const texts = new RegExp(quotedText, "g");
const enclosed = new RegExp([quotedText, quotedName, inBrackets].join("|"), "g");

/** A formula with "" for each text, so that what is searched for is found in the formula alone; nothing of one that is too long. */
export const withoutTexts = (formula: string): string =>
  formula.length > longestFormula ? "" : formula.replace(texts, '""');

/** Why a formula is not read at all, undefined for every other one. */
export function refusalOf(formula: string): string | undefined {
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
