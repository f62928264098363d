import type { Node } from "../formula/parse/syntax";

/**
 * What a formula computes where it does not merely leave its cell blank: the sum in IF(COUNTA(B7:B24)=0,"",SUM(F7:F24)). Forms are full of such
 * conditions, and what is done within them is done to the figure all the same.
 */
export function withoutBlanking(node: Node): Node {
  if (node.type !== "call") return node;
  const [first, second, third] = node.arguments;
  if (node.name === "IFERROR" || node.name === "IFNA")
    return first && second && isNothing(second) ? withoutBlanking(first) : node;
  if (node.name !== "IF" || !second || !third) return node;
  if (isNothing(second)) return withoutBlanking(third);
  return isNothing(third) ? withoutBlanking(second) : node;
}

/** An empty text, a dash, or NA(). */
const isNothing = (node: Node): boolean =>
  node.type === "constant"
    ? typeof node.value === "string" && !/[\p{L}\p{N}]/u.test(node.value)
    : node.type === "call" && node.name === "NA";
