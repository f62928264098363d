import { parse, tokenize, type Token } from "@borgar/fx/xlsx";
import { sentence } from "../../file/problem";
import { refusalOf } from "./enclosed";
import { parsable } from "./prefixes";
import { relativeKey } from "./relative-key";
import { surveyed } from "./survey";
import type { Node, Parsed } from "./syntax";
import { Translator } from "./translate";

/**
 * Formulas by their relative form, remembered for the whole process: parsing takes more than half of an evaluation, a review evaluates
 * its workbook several times, and the workbooks of a folder are mostly copies of one form. Trees do not change and know no workbook.
 */
const remembered = new Map<string, Parsed>();
let rememberedLength = 0;

/** Characters of the remembered forms; a large workbook of copied formulas has a tenth of it. */
const mostRemembered = 5_000_000;

/** Functions and parentheses in each other. Excel takes 64 levels. */
const deepestNesting = 256;
const tooDeep = `a formula nested more than ${deepestNesting} deep`;

/** The tree of a formula that stands in a cell; a formula that cannot be parsed becomes a tree that refuses, saying why. */
export function parseFormula(text: string, row: number, column: number): Parsed {
  const refusal = refusalOf(text);
  if (refusal !== undefined) return refused(refusal);
  const key = relativeKey(text, row, column);
  let parsed = remembered.get(key);
  if (!parsed) {
    parsed = parseAnew(text, row, column);
    remember(key, parsed);
  }
  return parsed;
}

const refused = (reason: string): Parsed => {
  const root: Node = { type: "refused", reason };
  return { root, parenthesised: false, ...surveyed(root) };
};

function remember(key: string, parsed: Parsed): void {
  rememberedLength += key.length;
  if (rememberedLength > mostRemembered) {
    remembered.clear();
    rememberedLength = key.length;
  }
  remembered.set(key, parsed);
}

function parseAnew(text: string, row: number, column: number): Parsed {
  try {
    const tokens = tokenize(parsable(text), { withLocation: false });
    const root = new Translator(row, column).node(parse(tokens, { looseRefCalls: true }));
    const { nesting, ...survey } = surveyed(root);
    if (nesting > deepestNesting) return refused(tooDeep);
    return { root, parenthesised: isParenthesised(tokens), ...survey };
  } catch (problem) {
    if (problem instanceof RangeError) return refused(tooDeep);
    return refused(sentence`the formula cannot be parsed: ${problem instanceof Error ? problem.message : ""}`);
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
