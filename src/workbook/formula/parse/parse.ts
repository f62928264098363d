import { parse, tokenize, type Token } from "@borgar/fx/xlsx";
import { parsable } from "./prefixes";
import { relativeKey } from "./relative-key";
import { surveyed } from "./survey";
import type { Node, Parsed } from "./syntax";
import { Translator } from "./translate";

/** Parses formulas and remembers them by their relative form. */
export class Parser {
  private readonly byKey = new Map<string, Parsed>();

  /** The tree of a formula that stands in a cell; a formula that cannot be parsed becomes a tree that refuses, saying why. */
  parse(text: string, row: number, column: number): Parsed {
    const key = relativeKey(text, row, column);
    let parsed = this.byKey.get(key);
    if (!parsed) {
      parsed = parseFormula(text, row, column);
      this.byKey.set(key, parsed);
    }
    return parsed;
  }
}

function parseFormula(text: string, row: number, column: number): Parsed {
  let root: Node;
  let parenthesised = false;
  try {
    const tokens = tokenize(parsable(text), { withLocation: false });
    parenthesised = isParenthesised(tokens);
    root = new Translator(row, column).node(parse(tokens, { looseRefCalls: true }));
  } catch (problem) {
    root = {
      type: "refused",
      reason: `the formula cannot be parsed: ${problem instanceof Error ? problem.message : ""}`,
    };
  }
  return { root, parenthesised, ...surveyed(root) };
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
