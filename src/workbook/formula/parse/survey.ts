import { children, type Node, type Parsed } from "./syntax";

/** What the scheduler and the report want to know about a formula without evaluating it. */
export function surveyed(root: Node): Omit<Parsed, "root" | "parenthesised"> & { readonly nesting: number } {
  const precedents = new Map<string, Parsed["precedents"][number]>();
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
    if (node.type === "call" && (node.name === "SUBTOTAL" || node.name === "AGGREGATE")) {
      subtotal = node === root ? "outermost" : "within";
    }
    // Operations in a row, a+b+c, are nested to the left and evaluated in a loop: they count as one level.
    for (const [place, child] of children(node).entries())
      if (child) open.push([child, level + (place === 0 && child.type === node.type && "left" in node ? 0 : 1)]);
  }
  return { nesting, precedents: [...precedents.values()], addInCalls, plainAddIn, subtotal };
}
