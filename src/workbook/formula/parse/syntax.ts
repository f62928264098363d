import type { Scalar } from "../values/value";

/** One edge of an area: a fixed index, or a distance from the cell that holds the formula. */
export interface Edge {
  readonly fixed: boolean;
  readonly index: number;
}

/** An area as written in a formula; `sheets` is empty for the formula's own sheet and has two names for a range of sheets. */
export interface AreaNode {
  readonly type: "area";
  readonly sheets: readonly string[];
  readonly top: Edge;
  readonly left: Edge;
  readonly bottom: Edge;
  readonly right: Edge;
}

export interface TableNode {
  readonly type: "table";
  readonly table: string;
  readonly sections: readonly string[];
  readonly columns: readonly string[];
}

export type BinaryOperator = "+" | "-" | "*" | "/" | "^" | "&" | "=" | "<" | ">" | "<=" | ">=" | "<>";
export type ReferenceOperator = ":" | "," | " ";

/** How a call of an add-in function is written in the file: as Excel stores it, or as text typed while it was absent. */
export type AddInForm = "stored" | "plain";

export interface OperationNode {
  readonly type: "operation";
  readonly operator: BinaryOperator;
  readonly left: Node;
  readonly right: Node;
}

/** A formula as a tree, independent of its place: references are relative to the cell. */
export type Node =
  | { readonly type: "constant"; readonly value: Scalar }
  | { readonly type: "array"; readonly rows: number; readonly columns: number; readonly values: readonly Scalar[] }
  | AreaNode
  | NameNode
  | ExternalNode
  | TableNode
  | { readonly type: "sign"; readonly operator: "+" | "-" | "%"; readonly operand: Node }
  | OperationNode
  | { readonly type: "join"; readonly operator: ReferenceOperator; readonly left: Node; readonly right: Node }
  | { readonly type: "spill"; readonly operand: Node }
  | { readonly type: "single"; readonly operand: Node }
  | CallNode
  | {
      readonly type: "addIn";
      readonly id: string;
      readonly form: AddInForm;
      readonly arguments: readonly (Node | null)[];
    }
  | { readonly type: "let"; readonly names: readonly string[]; readonly values: readonly Node[]; readonly body: Node }
  | {
      readonly type: "lambda";
      readonly parameters: readonly string[];
      /** How many of the parameters, the last ones, may be left out. */
      readonly optional: number;
      readonly body: Node;
    }
  | { readonly type: "apply"; readonly callee: Node; readonly arguments: readonly (Node | null)[] }
  | RefusedNode;

export interface RefusedNode {
  readonly type: "refused";
  readonly reason: string;
  /** The reason without what it quotes, if it quotes anything. */
  readonly cause?: string;
}

/** A reference to another workbook, by the number that the file gives it. */
export interface ExternalNode {
  readonly type: "external";
  readonly book: number;
  readonly target: AreaNode | NameNode;
}

export interface NameNode {
  readonly type: "name";
  readonly name: string;
  readonly sheet: string;
}

export interface CallNode {
  readonly type: "call";
  /** The function's name in upper case, without the prefixes of the file format. */
  readonly name: string;
  readonly arguments: readonly (Node | null)[];
}

/** A parsed formula. */
export interface Parsed {
  readonly root: Node;
  /** Parentheses around the whole formula: they keep Excel from snapping a final difference to 0. */
  readonly parenthesised: boolean;
  /** Calls of add-in functions written in it. */
  readonly addInCalls: number;
  /** True if an add-in function is stored as text typed without the add-in loaded. */
  readonly plainAddIn: boolean;
  /** The names of the other functions that it calls. */
  readonly functions: ReadonlySet<string>;
  /** Calls SUBTOTAL or AGGREGATE, which leave each other's cells out. */
  readonly subtotal: "no" | "outermost" | "within";
  /** Areas and names visible in it, best evaluated first. */
  readonly precedents: readonly (AreaNode | TableNode | NameNode)[];
}

/** The nodes directly under a node. */
export function listChildren(node: Node): readonly (Node | null)[] {
  switch (node.type) {
    case "sign":
    case "spill":
    case "single":
      return [node.operand];
    case "operation":
    case "join":
      return [node.left, node.right];
    case "call":
    case "addIn":
      return node.arguments;
    case "apply":
      return [node.callee, ...node.arguments];
    case "let":
      return [...node.values, node.body];
    case "lambda":
      return [node.body];
    case "constant":
    case "array":
    case "area":
    case "name":
    case "external":
    case "table":
    case "refused":
      return [];
  }
}

const descendants = new WeakMap<Node, readonly Node[]>();

/** A node and all below it, each before those under it and each once, however many LET names refer to it. Kept, as every question about a formula asks for it. */
export function listDescendants(root: Node): readonly Node[] {
  let found = descendants.get(root);
  if (!found) descendants.set(root, (found = collectDescendants(root)));
  return found;
}

/**
 * The same without what is under some of the nodes. With a list in place of recursion: a sum may be thousands of operations deep.
 * @param into Whether to go on below a node.
 */
export function collectDescendants(root: Node, into: (node: Node) => boolean = () => true): Node[] {
  const open: Node[] = [root];
  const seen = new Set<Node>();
  for (let node = open.pop(); node; node = open.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    if (!into(node)) continue;
    const below = listChildren(node);
    for (let place = below.length - 1; place >= 0; place -= 1) {
      const child = below[place];
      if (child) open.push(child);
    }
  }
  return [...seen];
}

/** A node that has a left and a right side. */
export type Pair = Extract<Node, { readonly left: Node }>;

/** A chain of operations or of joined references taken from the left: what a+b−c begins with, and each step after it. */
export function unrollChain<P extends Pair>(node: P): { readonly first: Node; readonly steps: readonly P[] } {
  const steps: P[] = [];
  let first: Node = node;
  while (first.type === node.type) {
    steps.push(first as P);
    first = (first as P).left;
  }
  return { first, steps: steps.reverse() };
}
