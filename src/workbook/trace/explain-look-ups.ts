import { columnsOf, rowsOf, type SheetArea } from "../book/area";
import type { Node } from "../formula/parse/syntax";
import { Reference } from "../formula/values/value";
import {
  call,
  constant,
  referenceOf,
  scalarsOf,
  type Spot,
  valueOf,
  type Walker,
  word,
  type Words,
} from "./explanation";

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
    case "SUMIF":
    case "AVERAGEIF":
      return conditionalWords(walker, node, spot);
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
  const [kind] = rest;
  const given = kind === undefined ? undefined : kind === null ? 0 : scalarsOf(walker, kind, spot);
  return { text: `the place where ${listWords} ${closenessOf(node.name, given)(value.text)}`, rank: 9 };
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

type Call = Extract<Node, { type: "call" }>;
type Given = readonly (Node | null)[];

const found = "the entry found";
/** What a cell that was found is for: the part of the formula's own purpose, if it has one. */
const known = (spot: Spot): string => (spot.role === "" ? found : spot.role);
/** An argument that takes a whole range. */
const inner = (spot: Spot): Spot => ({ ...spot, way: spot.way === "cell" ? "nested" : spot.way, single: false });

/** An argument that is calculated as an array whatever the cell. */
const whole = (spot: Spot): Spot => ({ ...spot, way: "array", single: false });

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
  if (area.left === area.right && place <= rowsOf(area))
    return { ...area, top: area.top + place - 1, bottom: area.top + place - 1 };
  if (area.top === area.bottom && place <= columnsOf(area))
    return { ...area, left: area.left + place - 1, right: area.left + place - 1 };
  return undefined;
}

/** How the entry found answers what was looked for, by the function and its argument for the kind of match. */
function closenessOf(name: string, kind: unknown): (wanted: string) => string {
  const mode = kind === undefined ? (name === "MATCH" ? 1 : 0) : Number(kind);
  // MATCH counts the other way round: 1 is "or less", which XMATCH and XLOOKUP call -1.
  const below = name === "MATCH" ? mode > 0 : mode === -1;
  const above = name === "MATCH" ? mode < 0 : mode === 1;
  if (below) return (wanted) => `is ${wanted} or the next smaller`;
  if (above) return (wanted) => `is ${wanted} or the next larger`;
  return (wanted) => (mode === 2 ? `matches ${wanted}` : `is ${wanted}`);
}

/** XLOOKUP: the entry that matched and the one that stands beside it; what takes their place where nothing matched. */
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
  const closeness = closenessOf("XLOOKUP", mode ? scalarsOf(walker, mode, spot) : undefined);
  return { text: `${words} (where ${listWords} ${closeness(value.text)})`, rank: 9 };
}

/** VLOOKUP and HLOOKUP, told as the INDEX and MATCH that they are. */
function tableWords(walker: Walker, name: string, given: Given, spot: Spot): Words | undefined {
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
function vectorWords(
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

/**
 * SUMIF and AVERAGEIF: what is summed, and the condition. The range to sum counts from its first cell, in the size of the range that is asked,
 * whatever its own size.
 */
function conditionalWords(walker: Walker, { name, arguments: given }: Call, spot: Spot): Words | undefined {
  const [range = null, criterion = null, target = null] = given;
  const asked = range ? referenceOf(walker, range, inner(spot))?.area : undefined;
  const first = target ? referenceOf(walker, target, inner(spot))?.area : asked;
  if (!asked || !first) return undefined;
  const summed = new Reference([
    { ...first, bottom: first.top + rowsOf(asked) - 1, right: first.left + columnsOf(asked) - 1 },
  ]);
  walker.read(summed, spot.role);
  // Read for its own sake too: a range that is itself looked up or moved rests on more than its cells.
  for (const part of [range, target]) if (part && part.type !== "area") walker.walk(part, inner(spot));
  const askedWords = walker.walk(range, { ...inner(spot), role: target ? "condition" : spot.role }).text;
  const value = walker.walk(criterion, { ...spot, role: "condition", single: true });
  const what = name === "SUMIF" ? "sum" : "mean";
  const wanted = value.rank < 9 ? `(${value.text})` : value.text;
  return { text: `the ${what} of ${walker.named(summed)} where ${askedWords} matches ${wanted}`, rank: 2.5 };
}
