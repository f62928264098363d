import { chainOf, type Node, type Pair } from "../formula/parse/syntax";

type Meanings = ReadonlyMap<string, Node>;

/** A formula with the names of LET replaced by what they stand for, so that each part can be read by itself. */
export function withoutLet(node: Node, known: Meanings = new Map()): Node {
  const inner = (part: Node): Node => withoutLet(part, known);
  const each = (parts: readonly (Node | null)[]): (Node | null)[] => parts.map((part) => part && inner(part));
  switch (node.type) {
    case "name":
      return (node.sheet === "" ? known.get(node.name.toLowerCase()) : undefined) ?? node;
    case "let": {
      const meanings = new Map(known);
      node.names.forEach((name, index) => {
        const value = node.values[index];
        if (value) meanings.set(name.toLowerCase(), withoutLet(value, meanings));
      });
      return withoutLet(node.body, meanings);
    }
    case "sign":
    case "spill":
    case "single":
      return { ...node, operand: inner(node.operand) };
    case "operation":
    case "join": {
      const { first, steps } = chainOf<Pair>(node);
      return steps.reduce((left: Node, step) => ({ ...step, left, right: inner(step.right) }), inner(first));
    }
    case "call":
    case "addIn":
      return { ...node, arguments: each(node.arguments) };
    case "apply":
      return { ...node, callee: inner(node.callee), arguments: each(node.arguments) };
    case "constant":
    case "array":
    case "area":
    case "table":
    case "lambda":
    case "refused":
      return node;
  }
}
