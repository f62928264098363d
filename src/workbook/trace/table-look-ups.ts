import type { Node } from "../formula/parse/syntax";
import { Reference } from "../formula/values/value";
import { closenessOf, entryOf, hitIn, inner, known, whole, type Call, type Given } from "./look-up-hits";
import { call, constant, referenceOf, scalarsOf, word, type Spot, type Walker, type Words } from "./walk";

/** XLOOKUP: the entry that matched and the one that stands beside it; what takes their place where nothing matched. */
export function xlookupWords(walker: Walker, node: Call, spot: Spot): Words | undefined {
  const [wanted = null, list = null, results = null, missing = null, mode = null, search = null] = node.arguments;
  const place = scalarsOf(walker, call("XMATCH", wanted, list, mode ?? constant(0), search ?? constant(1)), spot);
  if (typeof place !== "number" || !results) {
    if (place === undefined) return undefined;
    const value = walker.walk(wanted, { ...spot, single: true, role: "looked for" });
    const all = walker.walk(list, { ...inner(spot), role: "looked through" });
    walker.findings.reasons.add(`${value.text} is not in ${all.text}`);
    return missing ? walker.walk(missing, spot) : word("#N/A");
  }
  const value = walker.walk(wanted, { ...spot, single: true, role: "looked for" });
  const listWords =
    hitIn(walker, list, place, spot) ?? walker.walk(list, { ...inner(spot), role: "looked through" }).text;
  const hit = referenceOf(walker, node, spot);
  if (hit) walker.read(hit, known(spot));
  const words = hit ? walker.named(hit) : walker.walk(results, inner(spot)).text;
  const closeness = closenessOf("XLOOKUP", mode ? scalarsOf(walker, mode, spot) : undefined);
  return { text: `${words} (where ${listWords} ${closeness(value.text)})`, rank: 9 };
}

/** VLOOKUP and HLOOKUP, told as the INDEX and MATCH that they are. */
export function tableWords(walker: Walker, name: string, given: Given, spot: Spot): Words | undefined {
  const [wanted = null, table = null, index = null, sorted] = given;
  if (!table || !index) return undefined;
  const vertical = name === "VLOOKUP";
  const kind = sorted === undefined ? true : sorted === null ? false : scalarsOf(walker, sorted, spot);
  if (kind === undefined) return undefined;
  // A blank cell counts as FALSE.
  const exact = kind === false || kind === 0 || kind === null;
  const list = vertical
    ? call("INDEX", table, constant(0), constant(1))
    : call("INDEX", table, constant(1), constant(0));
  return inTable(walker, call("MATCH", wanted, list, constant(exact ? 0 : 1)), table, index, vertical, spot);
}

/** LOOKUP in a list, with the results in another. */
export function vectorWords(
  walker: Walker,
  [wanted = null, list = null, results = null]: Given,
  spot: Spot,
): Words | undefined {
  if (!results) return undefined;
  // LOOKUP calculates its list as an array in every formula; MATCH does so only in array formulas.
  const match = call("MATCH", wanted, list, constant(1));
  const place = scalarsOf(walker, match, whole(spot));
  const area = referenceOf(walker, results, inner(spot))?.area;
  const hit = area && typeof place === "number" ? entryOf(area, place) : undefined;
  if (!hit) return undefined;
  const words = walker.walk(match, whole(spot)).text.replace(/^the place /, "");
  const reference = new Reference([hit]);
  walker.read(reference, known(spot));
  return word(`${walker.named(reference)} (${words})`);
}

function inTable(
  walker: Walker,
  match: Node,
  table: Node,
  index: Node,
  vertical: boolean,
  spot: Spot,
): Words | undefined {
  const place = scalarsOf(walker, match, spot);
  if (typeof place !== "number") return undefined;
  const at = constant(place);
  const hit = referenceOf(walker, vertical ? call("INDEX", table, at, index) : call("INDEX", table, index, at), spot);
  if (!hit) return undefined;
  const words = walker.walk(match, spot).text.replace(/^the place /, "");
  if (index.type !== "constant") walker.walk(index, { ...inner(spot), role: "look-up", single: true });
  walker.read(hit, known(spot));
  return word(`${walker.named(hit)} (${words})`);
}
