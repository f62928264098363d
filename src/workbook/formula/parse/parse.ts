import { parse, type Token, tokenize } from "@borgar/fx/xlsx";
import { sentence } from "../../file/problem";
import { parseColumn } from "../../book/address";
import { inBrackets, longestFormula, prepareForParsing, quotedName, quotedText, findRefusal } from "./formula-text";
import { listChildren, type Node, type Parsed } from "./syntax";
import { Translator } from "./translate";

/** A parsed formula. */
export interface ReadFormula {
  /** The formula relative to its cell, identical for all copies. */
  readonly pattern: string;
  readonly parsed: Parsed;
}

/**
 * Formulas by their pattern, remembered for the whole process: parsing takes more than half of an evaluation, and the workbooks of a
 * folder are mostly copies of one form. Trees do not change and know no workbook.
 */
const remembered = new Map<string, ReadFormula>();
let rememberedLength = 0;

/** Characters of the remembered forms; a large workbook of copied formulas has a tenth of this. */
const mostRemembered = 5_000_000;

/** Nesting of functions and parentheses. Excel allows 64 levels. */
const deepestNesting = 256;
const tooDeep = `a formula nested more than ${deepestNesting} deep`;
const unparsable = "the formula cannot be parsed";

/** The tree of a cell's formula; a formula that cannot be parsed becomes a tree that refuses with the reason. */
export function parseFormula(text: string, row: number, column: number): Parsed {
  return readFormula(text, row, column).parsed;
}

/** The tree of a cell's formula, and the pattern shared by its copies. */
export function readFormula(text: string, row: number, column: number): ReadFormula {
  const pattern = buildRelativeKey(text, row, column);
  const refusal = findRefusal(text);
  if (refusal !== undefined) return { pattern, parsed: buildRefused(refusal) };
  let read = remembered.get(pattern);
  if (!read) {
    read = { pattern, parsed: parseAnew(text, row, column) };
    remember(read);
  }
  return read;
}

const buildRefused = (reason: string, cause = reason): Parsed => {
  const root: Node = { type: "refused", reason, cause };
  return { root, parenthesised: false, ...surveyFormula(root) };
};

function remember(read: ReadFormula): void {
  const { pattern } = read;
  rememberedLength += pattern.length;
  if (rememberedLength > mostRemembered) {
    remembered.clear();
    rememberedLength = pattern.length;
  }
  remembered.set(pattern, read);
}

function parseAnew(text: string, row: number, column: number): Parsed {
  try {
    const tokens = tokenize(prepareForParsing(text), { withLocation: false });
    const root = new Translator(row, column).translateNode(parse(tokens, { looseRefCalls: true }));
    const { nesting, ...survey } = surveyFormula(root);
    if (nesting > deepestNesting) return buildRefused(tooDeep);
    return { root, parenthesised: isParenthesised(tokens), ...survey };
  } catch (problem) {
    if (problem instanceof RangeError) return buildRefused(tooDeep);
    const said = problem instanceof Error ? problem.message : "";
    return buildRefused(sentence`${unparsable}: ${said}`, unparsable);
  }
}

/** True where the first parenthesis of the formula closes at its very end. */
function isParenthesised(tokens: readonly Token[]): boolean {
  const solid = tokens.filter((token) => token.type !== "whitespace" && token.type !== "fx_prefix");
  if (solid[0]?.value !== "(" || solid.at(-1)?.value !== ")") return false;
  let depth = 0;
  for (const [place, token] of solid.entries()) {
    if (token.type !== "operator") continue;
    if (token.value === "(") depth += 1;
    if (token.value === ")") depth -= 1;
    if (depth === 0) return place === solid.length - 1;
  }
  return false;
}

/** What the scheduler and the report want to know about a formula without evaluating it. */
function surveyFormula(root: Node): Omit<Parsed, "root" | "parenthesised"> & { readonly nesting: number } {
  const precedents = new Map<string, Parsed["precedents"][number]>();
  const functions = new Set<string>();
  let addInCalls = 0;
  let plainAddIn = false;
  let subtotal: Parsed["subtotal"] = "no";
  let nesting = 0;
  const open: (readonly [node: Node, level: number])[] = [[root, 0]];
  for (let next = open.pop(); next; next = open.pop()) {
    const [node, level] = next;
    nesting = Math.max(nesting, level);
    if (node.type === "area" || node.type === "table" || node.type === "name")
      precedents.set(JSON.stringify(node), node);
    if (node.type === "addIn") {
      addInCalls += 1;
      plainAddIn ||= node.form === "plain";
    }
    if (node.type === "call") {
      functions.add(node.name);
      if (node.name === "SUBTOTAL" || node.name === "AGGREGATE") subtotal = node === root ? "outermost" : "within";
    }
    // Operations in a row, a+b+c, are nested to the left and evaluated in a loop: they count as one level.
    for (const [place, child] of listChildren(node).entries())
      if (child) open.push([child, level + (place === 0 && child.type === node.type && "left" in node ? 0 : 1)]);
  }
  return { nesting, precedents: [...precedents.values()], addInCalls, plainAddIn, functions, subtotal };
}

// What must be left alone (text, quoted names, anything in brackets, words and calls), or a reference: $A$1 with its parts, $A:$B, $1:$2.
const buildPartsPattern = (letter: string, flags: string): RegExp =>
  new RegExp(
    [
      quotedText,
      quotedName,
      inBrackets,
      `(\\$?)([A-Za-z]{1,3})(\\$?)([0-9]{1,7})(?![${letter}0-9_.(!])`,
      `\\$?[A-Za-z]{1,3}:\\$?[A-Za-z]{1,3}(?![${letter}0-9_.(!])`,
      `\\$?[0-9]{1,7}:\\$?[0-9]{1,7}(?![${letter}0-9_.])`,
      `[${letter}_\\\\][${letter}0-9_.\\\\?]*`,
      "[0-9.]+",
    ].join("|"),
    flags,
  );
const asciiParts = buildPartsPattern("A-Za-z", "g");
const parts = buildPartsPattern("\\p{L}\\p{N}", "gu");
const ascii = /^[\x20-\x7e]*$/;
const edge = /^(\$?)([A-Za-z]{1,3}|[0-9]{1,7})$/;

/**
 * A key that is the same for formulas with the same meaning relative to their cells, so that a column of copied formulas
 * is parsed once: =A1*2 in B1 and =A2*2 in B2 share one. A formula that is too long to be read is its own key.
 */
function buildRelativeKey(text: string, row: number, column: number): string {
  if (text.length > longestFormula) return text;
  return text.replace(ascii.test(text) ? asciiParts : parts, (part, ...found: (string | undefined)[]) => {
    const [fixedColumn, letters, fixedRow, digits] = found;
    if (letters !== undefined) {
      const columnIndex = parseColumn(letters);
      const rowIndex = Number(digits) - 1;
      return `{${fixedColumn ? `$${columnIndex}` : columnIndex - column},${fixedRow ? `$${rowIndex}` : rowIndex - row}}`;
    }
    const first = part.charCodeAt(0);
    if (first === 34 || first === 39 || first === 91 || !part.includes(":")) return part;
    const [from = "", to = ""] = part.split(":");
    const start = edge.exec(from);
    const end = edge.exec(to);
    return start && end ? `{${writeRelativeEdge(start, row, column)}:${writeRelativeEdge(end, row, column)}}` : part;
  });
}

function writeRelativeEdge(match: RegExpExecArray, row: number, column: number): string {
  const name = match[2] ?? "";
  const isRow = /^[0-9]/.test(name);
  const index = isRow ? Number(name) - 1 : parseColumn(name);
  return (isRow ? "r" : "c") + (match[1] ? `$${index}` : String(index - (isRow ? row : column)));
}
