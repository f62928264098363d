import type { Node } from "../formula/syntax";
import { Reference, type SheetArea } from "../formula/value";
import { call, constant, referenceOf, scalarsOf, valueOf, word, type Spot, type Walker, type Words } from "./walk";

type Call = Extract<Node, { type: "call" }>;
type Given = readonly (Node | null)[];

/** Functions that pick cells out of a range: only the cells that they hit are followed. Undefined for every other function. */
export function lookUpWords(walker: Walker, node: Call, spot: Spot): Words | undefined {
  const { name, arguments: given } = node;
  switch (name) {
    case "INDEX":
      return indexWords(walker, node, spot);
    case "MATCH":
    case "XMATCH":
      return matchWords(walker, node, spot);
    case "XLOOKUP":
      return xlookupWords(walker, node, spot);
    case "VLOOKUP":
    case "HLOOKUP":
      return tableWords(walker, name, given, spot);
    case "LOOKUP":
      return given.length === 3 ? vectorWords(walker, given, spot) : undefined;
    case "OFFSET":
    case "INDIRECT":
      return movedWords(walker, node, spot);
    case "ROW":
    case "COLUMN":
    case "ROWS":
    case "COLUMNS":
      return placeWords(walker, node, spot);
    default:
      return undefined;
  }
}

const found = "the entry found";
const known = (spot: Spot): string => (spot.role === "" ? found : spot.role);
/** An argument that takes a whole range. */
const inner = (spot: Spot): Spot => ({ ...spot, way: spot.way === "cell" ? "nested" : spot.way, single: false });

function indexWords(walker: Walker, node: Call, spot: Spot): Words | undefined {
  const [table = null, ...places] = node.arguments;
  const hit = referenceOf(walker, node, spot);
  if (!hit) return undefined;
  walker.read(hit, known(spot));
  // A range that is itself chosen or computed rests on more than the cell that was hit.
  if (table && !isPlain(table)) walker.walk(table, { ...inner(spot), role: "looked through", single: false });
  const ways = places.flatMap((place) => placeText(walker, place, spot));
  return { text: `${walker.named(hit)}${ways.length > 0 ? ` (${ways.join(", ")})` : ""}`, rank: 9 };
}

/** A range as it is written, or a column of one. */
function isPlain(node: Node): boolean {
  if (node.type !== "call") return ["area", "table", "name", "spill", "join"].includes(node.type);
  const [range, ...places] = node.arguments;
  return node.name === "INDEX" && !!range && isPlain(range) && places.every((place) => place?.type !== "call");
}

/** "where “symbol” is "n50"": how the row or column was found; nothing for a number that is written down. */
function placeText(walker: Walker, place: Node | null, spot: Spot): string[] {
  if (!place || place.type === "constant") return [];
  const words = walker.walk(place, { ...inner(spot), role: "look-up", single: true });
  const isMatch = place.type === "call" && (place.name === "MATCH" || place.name === "XMATCH");
  return [isMatch ? words.text.replace(/^the place /, "") : `place ${words.text}`];
}

function matchWords(walker: Walker, node: Call, spot: Spot): Words {
  const [wanted = null, list = null, ...rest] = node.arguments;
  const value = walker.walk(wanted, { ...spot, single: true, role: "looked for" });
  const place = scalarsOf(walker, node, spot);
  const where = hitIn(walker, list, place, spot);
  for (const other of rest) walker.walk(other, { ...inner(spot), role: "look-up" });
  const listWords = where ?? walker.walk(list, { ...inner(spot), role: "looked through" }).text;
  return { text: `the place where ${listWords} is ${value.text}`, rank: 9 };
}

/** Reads the one entry of a list that was hit and gives the list's words; undefined where no single one can be told. */
function hitIn(walker: Walker, list: Node | null, place: unknown, spot: Spot): string | undefined {
  const area = list ? referenceOf(walker, list, inner(spot))?.area : undefined;
  if (!area || typeof place !== "number") return undefined;
  const hit = entryOf(area, place);
  if (!hit) return undefined;
  walker.read(new Reference([hit]), "the entry that matched");
  return walker.tools.nameArea(area);
}

/** The nth cell of a row or column. */
function entryOf(area: SheetArea, place: number): SheetArea | undefined {
  if (area.left === area.right && place <= area.bottom - area.top + 1)
    return { ...area, top: area.top + place - 1, bottom: area.top + place - 1 };
  if (area.top === area.bottom && place <= area.right - area.left + 1)
    return { ...area, left: area.left + place - 1, right: area.left + place - 1 };
  return undefined;
}

function xlookupWords(walker: Walker, node: Call, spot: Spot): Words | undefined {
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
  return { text: `${words} (where ${listWords} is ${value.text})`, rank: 9 };
}

/** VLOOKUP and HLOOKUP, told as the INDEX and MATCH that they are. */
function tableWords(walker: Walker, name: string, given: Given, spot: Spot): Words | undefined {
  const [wanted = null, table = null, index = null, sorted] = given;
  if (!table || !index) return undefined;
  const vertical = name === "VLOOKUP";
  const kind = sorted === undefined ? true : sorted === null ? false : scalarsOf(walker, sorted, spot);
  if (kind === undefined) return undefined;
  const exact = kind === false || kind === 0;
  const list = vertical
    ? call("INDEX", table, constant(0), constant(1))
    : call("INDEX", table, constant(1), constant(0));
  return inTable(walker, call("MATCH", wanted, list, constant(exact ? 0 : 1)), table, index, vertical, spot);
}

function vectorWords(
  walker: Walker,
  [wanted = null, list = null, results = null]: Given,
  spot: Spot,
): Words | undefined {
  if (!results) return undefined;
  const place = scalarsOf(walker, call("MATCH", wanted, list, constant(1)), spot);
  const area = referenceOf(walker, results, inner(spot))?.area;
  const hit = area && typeof place === "number" ? entryOf(area, place) : undefined;
  if (!hit) return undefined;
  const match = walker.walk(call("MATCH", wanted, list, constant(1)), spot).text.replace(/^the place /, "");
  const reference = new Reference([hit]);
  walker.read(reference, known(spot));
  return word(`${walker.named(reference)} (${match})`);
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

/** OFFSET and INDIRECT: the cells that they arrive at, and what sent them there. */
function movedWords(walker: Walker, node: Call, spot: Spot): Words | undefined {
  const hit = referenceOf(walker, node, spot);
  if (!hit) return undefined;
  const given = node.name === "OFFSET" ? node.arguments.slice(1) : node.arguments;
  for (const argument of given) if (argument) walker.walk(argument, { ...inner(spot), role: "place", single: true });
  walker.read(hit, spot.role);
  return word(walker.named(hit));
}

const placeNames: Readonly<Record<string, string>> = {
  ROW: "the row number",
  COLUMN: "the column number",
  ROWS: "the number of rows",
  COLUMNS: "the number of columns",
};

/** ROW and its like ask where a range lies, not what stands in it. */
function placeWords(walker: Walker, { name, arguments: [range] }: Call, spot: Spot): Words | undefined {
  if (range?.type !== "area" && range?.type !== "table") return undefined;
  const value = valueOf(walker, call(name, range), spot);
  return word(`${typeof value === "number" ? `${String(value)}, ` : ""}${placeNames[name] ?? ""}`);
}
