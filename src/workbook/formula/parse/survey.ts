import { children, type Node, type Parsed } from "./syntax";

/** What the scheduler and the report want to know about a formula without evaluating it. */
export function surveyed(root: Node): Omit<Parsed, "root" | "parenthesised"> {
  const precedents = new Map<string, Parsed["precedents"][number]>();
  let addInCalls = 0;
  let plainAddIn = false;
  let subtotal: Parsed["subtotal"] = "no";
  const open: Node[] = [root];
  for (let node = open.pop(); node; node = open.pop()) {
    if (node.type === "area" || node.type === "table" || node.type === "name")
      precedents.set(JSON.stringify(node), node);
    if (node.type === "addIn") {
      addInCalls += 1;
      plainAddIn ||= node.form === "plain";
    }
    if (node.type === "call" && (node.name === "SUBTOTAL" || node.name === "AGGREGATE")) {
      subtotal = node === root ? "outermost" : "within";
    }
    for (const child of children(node)) if (child) open.push(child);
  }
  return { precedents: [...precedents.values()], addInCalls, plainAddIn, subtotal };
}
