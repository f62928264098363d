import type { Node } from "../formula/parse/syntax";
import type { Inspector } from "../book/inspector";
import { placeKey, type Place } from "../book/area";

/** Functions that give one of their arguments, or a mean of them; what they compare is left out. */
const chosen: Readonly<Record<string, (given: readonly (Node | null)[]) => readonly (Node | null)[]>> = {
  IF: (given) => given.slice(1),
  IFERROR: (given) => given,
  IFNA: (given) => given,
  CHOOSE: (given) => given.slice(1),
  AVERAGE: (given) => given,
  MEDIAN: (given) => given,
  MIN: (given) => given,
  MAX: (given) => given,
  ROUND: (given) => given.slice(0, 1),
  N: (given) => given,
};

const mostCells = 2000;

/**
 * The typed numbers that reach a cell in their own unit: handed on, chosen from, averaged or corrected by a certificate. Behind a formula that
 * computes otherwise, such as one that converts °F or hPa, a figure is in another unit by right.
 */
export function sameUnitSources(view: Inspector, place: Place): Place[] {
  const found = new Map<number, Place>();
  const waiting: Place[] = [place];
  for (let next = waiting.pop(); next && found.size < mostCells; next = waiting.pop()) {
    if (found.has(placeKey(next))) continue;
    found.set(placeKey(next), next);
    const root = view.owner(next) ? undefined : view.parsed(next)?.root;
    if (!root) continue;
    for (const node of handedOn(root))
      for (const area of view.areasOfNode(node, next)) for (const cell of view.cellsIn(area)) waiting.push(cell);
  }
  return [...found.values()]
    .filter((source) => view.isTyped(source) && view.number(source) !== undefined)
    .sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
}

/** The references whose value a formula hands on in its unit. */
function handedOn(node: Node | null | undefined): Node[] {
  if (!node) return [];
  if (node.type === "area" || node.type === "name" || node.type === "table") return [node];
  if (node.type === "single") return handedOn(node.operand);
  if (node.type === "addIn" && node.id.toUpperCase() === "CALIBRATEDVALUE") return handedOn(node.arguments[0]);
  if (node.type === "call") return (chosen[node.name]?.(node.arguments) ?? []).flatMap(handedOn);
  const mean = meanOf(node);
  return mean.flatMap(handedOn);
}

/** The terms of a mean written out, (a+b)/2: as many as the number that their sum is divided by. */
function meanOf(node: Node): Node[] {
  if (node.type !== "operation" || node.operator !== "/" || node.right.type !== "constant") return [];
  const terms = termsOf(node.left);
  return terms.length === node.right.value ? terms : [];
}

function termsOf(node: Node): Node[] {
  if (node.type === "operation" && node.operator === "+") return [...termsOf(node.left), ...termsOf(node.right)];
  return [node];
}
