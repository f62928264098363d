import { ordinaryFunctions } from "../formula/functions/index";
import type { Node } from "../formula/parse/syntax";
import { kindAt } from "./argument-kinds";
import { branchWords } from "./branches";
import { lookUpWords } from "./look-ups";
import { nativeWords } from "./native-words";
import { word, type Spot, type Walker, type Words } from "./walk";
import { sentence } from "../file/problem";

/** A call of one of Excel's own functions, or of a name that stands for a LAMBDA. */
export function callWords(walker: Walker, node: Node & { type: "call" }, spot: Spot): Words {
  const special = branchWords(walker, node.name, node.arguments, spot) ?? followedLookUp(walker, node, spot);
  if (special) return special;
  const entry = Object.hasOwn(ordinaryFunctions, node.name) ? ordinaryFunctions[node.name] : undefined;
  if (!entry && walker.tools.names.find(node.name.toLowerCase(), "", spot.frame.sheet) !== undefined) {
    const named = walker.name({ type: "name", name: node.name, sheet: "" }, { ...spot, unsure: true });
    const given = node.arguments.map((part) => walker.walk(part, { ...spot, single: false }).text);
    return word(`${named.text} with ${given.join(", ")}`);
  }
  const given = node.arguments.map((part, place) => {
    const kind = entry && kindAt(entry, place);
    const single = kind === "number" || kind === "text" || kind === "logical" || kind === "scalar" || kind === "any";
    const whole = kind === "array" || kind === "table";
    const way = whole ? "array" : spot.way === "cell" ? "nested" : spot.way;
    return part ? walker.walk(part, { ...spot, way, single }) : word("nothing");
  });
  return nativeWords(node.name, given);
}

/** What the look-up noted before it gave up would be told twice; so its reads are kept only where it succeeds. */
function followedLookUp(walker: Walker, node: Node & { type: "call" }, spot: Spot): Words | undefined {
  const before = walker.findings.reads.length;
  const words = lookUpWords(walker, node, spot);
  if (!words) walker.findings.reads.length = before;
  return words;
}

/** A call of an add-in function: what it does, and each argument under the name of its parameter. */
export function addInWords(walker: Walker, node: Node & { type: "addIn" }, spot: Spot): Words {
  const id = node.id.toUpperCase();
  walker.findings.calls.add(id);
  const note = walker.tools.functions.get(id);
  if (!note) walker.findings.notes.add(sentence`the add-in has no function ${id}`);
  const way = spot.way === "cell" ? "nested" : spot.way;
  const given = node.arguments.flatMap((part, place) => {
    if (!part) return [];
    const role = note?.parameters[Math.min(place, note.parameters.length - 1)] ?? "";
    const words = walker.walk(part, { ...spot, way, role, single: false });
    return [role === "" ? words.text : `${role}: ${words.text}`];
  });
  return word(`${note?.does ?? id}${given.length > 0 ? ` (${given.join("; ")})` : ""}`);
}
