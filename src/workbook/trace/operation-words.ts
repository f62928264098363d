import { chainOf, type Node, type OperationNode } from "../formula/parse/syntax";
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

/** Two parts and what is done with them, in parentheses only where they are needed; of a chain a+b−c one step after another. */
export function operationWords(walker: Walker, node: OperationNode, spot: Spot): Words {
  const { first, steps } = chainOf(node);
  const part = (one: Node): Words => walker.walk(one, { ...spot, single: true });
  return steps.reduce((before, { operator, right }) => joined(before, operator, part(right)), part(first));
}

function joined(first: Words, operator: OperationNode["operator"], second: Words): Words {
  const rank = ranks[operator] ?? 2;
  const side = (words: Words, least: number): string => (words.rank < least ? `(${words.text})` : words.text);
  // Excel takes powers from the left; on paper 2^3^2 is taken from the right.
  const left = side(first, operator === "^" ? rank + 1 : rank);
  const isLoose = operator === "+" || operator === "*" || operator === "&";
  const right = side(second, isLoose ? rank : rank + 1);
  const sign = signs[operator] ?? operator;
  return { text: sign === "^" ? `${left}^${right}` : `${left} ${sign} ${right}`, rank };
}
