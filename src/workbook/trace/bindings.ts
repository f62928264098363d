import type { Node } from "../formula/parse/syntax";
import { valueOf, type Spot, type Walker, type Words } from "./walk";

/** What its arguments will be is not known, so nothing inside it can be evaluated. */
export function lambdaWords(walker: Walker, node: Node & { type: "lambda" }, spot: Spot): Words {
  const names = new Map(node.parameters.map((parameter) => [parameter, null]));
  const scope = { names, outer: spot.frame.scope };
  return walker.walk(node.body, { ...spot, unsure: true, frame: { ...spot.frame, scope } });
}

/** LET: each name with what it stands for, in the order in which they may build on each other. */
export function letWords(walker: Walker, node: Node & { type: "let" }, spot: Spot): Words {
  let { scope } = spot.frame;
  const parts: string[] = [];
  for (const [place, name] of node.names.entries()) {
    const part = node.values[place];
    if (!part) continue;
    const here = { ...spot, frame: { ...spot.frame, scope }, single: false };
    parts.push(`${name} = ${walker.walk(part, here).text}`);
    const value = valueOf(walker, part, here);
    scope = { names: new Map([[name, value ?? null]]), outer: scope };
    if (value === undefined)
      return unknownLet(walker, node, parts, { ...spot, frame: { ...spot.frame, scope } }, place);
  }
  const body = walker.walk(node.body, { ...spot, frame: { ...spot.frame, scope } });
  return { text: `${body.text}, with ${parts.join(", ")}`, rank: 0 };
}

/** A part that cannot be evaluated leaves everything after it open. */
function unknownLet(walker: Walker, node: Node & { type: "let" }, parts: string[], spot: Spot, done: number): Words {
  let { scope } = spot.frame;
  for (const name of node.names.slice(done + 1)) scope = { names: new Map([[name, null]]), outer: scope };
  const open = { ...spot, unsure: true, frame: { ...spot.frame, scope } };
  for (const [place, part] of node.values.entries())
    if (place > done) parts.push(`${node.names[place] ?? ""} = ${walker.walk(part, open).text}`);
  return { text: `${walker.walk(node.body, open).text}, with ${parts.join(", ")}`, rank: 0 };
}
