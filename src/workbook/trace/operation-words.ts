import type { Node } from "../formula/parse/syntax";
import type { Spot, Walker, Words } from "./walk";

const ranks: Readonly<Record<string, number>> = { "^": 6, "*": 5, "/": 5, "+": 4, "-": 4, "&": 3 };
const signs: Readonly<Record<string, string>> = { "*": "×", "/": "÷", "-": "−", "<=": "≤", ">=": "≥", "<>": "≠" };

/** A part with a sign before it, or a per cent sign behind. */
export function signWords(walker: Walker, node: Node & { type: "sign" }, spot: Spot): Words {
  const inner = walker.walk(node.operand, { ...spot, single: true });
  // A sign binds closer than a power in Excel: (−2)^2 is what −2^2 means there.
  const text = inner.rank < 7 ? `(${inner.text})` : inner.text;
  return { text: node.operator === "%" ? `${text} %` : node.operator === "-" ? `−${text}` : text, rank: 5.5 };
}

/** Two parts and what is done with them, in parentheses only where they are needed. */
export function operationWords(walker: Walker, node: Node & { type: "operation" }, spot: Spot): Words {
  const rank = ranks[node.operator] ?? 2;
  const side = (part: Node, least: number): string => {
    const words = walker.walk(part, { ...spot, single: true });
    return words.rank < least ? `(${words.text})` : words.text;
  };
  // Excel takes powers from the left; on paper 2^3^2 is taken from the right.
  const left = side(node.left, node.operator === "^" ? rank + 1 : rank);
  const isLoose = node.operator === "+" || node.operator === "*" || node.operator === "&";
  const right = side(node.right, isLoose ? rank : rank + 1);
  const sign = signs[node.operator] ?? node.operator;
  return { text: sign === "^" ? `${left}^${right}` : `${left} ${sign} ${right}`, rank };
}
