import { columnsOf, rowsOf, type SheetArea } from "../book/area";
import type { Node } from "../formula/parse/syntax";
import { Reference } from "../formula/values/value";
import {
  call,
  constant,
  resolveReference,
  evaluateScalars,
  type Spot,
  evaluateNode,
  type Walker,
  word,
  type Words,
} from "./explanation";

/** Functions that pick cells out of a range: follows only the cells they hit. Undefined for any other function. */
export function lookUpWords(walker: Walker, node: Call, spot: Spot): Words | undefined {
  const { name, arguments: given } = node;
  switch (name) {
    case "INDEX":
      return indexWords(walker, node, spot);
    case "MATCH":
    case "XMATCH":
      return matchWords(walker, node, spot);
    case "XLOOKUP":
      return explainXlookup(walker, node, spot);
    case "VLOOKUP":
    case "HLOOKUP":
      return explainTableLookup(walker, name, given, spot);
    case "LOOKUP":
      return given.length === 3 ? explainVectorLookup(walker, given, spot) : undefined;
    case "SUMIF":
    case "AVERAGEIF":
      return explainConditionalSum(walker, node, spot);
    case "OFFSET":
    case "INDIRECT":
      return explainMove(walker, node, spot);
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
  const hit = resolveReference(walker, node, spot);
  if (!hit) return undefined;
  walker.read(hit, nameTarget(spot));
  // A range that is itself chosen or computed depends on more than the cell that was hit.
  if (table && !isPlain(table)) walker.walk(table, { ...toRangeSpot(spot), role: "list searched", single: false });
  const ways = places.flatMap((place) => placeText(walker, place, spot));
  return { text: `${walker.nameReference(hit)}${ways.length > 0 ? ` (${ways.join(", ")})` : ""}`, rank: 9 };
}

/** A range as written, or one of its columns. */
function isPlain(node: Node): boolean {
  if (node.type !== "call") return ["area", "table", "name", "spill", "join"].includes(node.type);
  const [range, ...places] = node.arguments;
  return node.name === "INDEX" && !!range && isPlain(range) && places.every((place) => place?.type !== "call");
}

/** "where “symbol” is "n50"": how the row or column was found; nothing for a literal number. */
function placeText(walker: Walker, place: Node | null, spot: Spot): string[] {
  if (!place || place.type === "constant") return [];
  const words = walker.walk(place, { ...toRangeSpot(spot), role: "look-up", single: true });
  const isMatch = place.type === "call" && (place.name === "MATCH" || place.name === "XMATCH");
  return [isMatch ? words.text.replace(/^the place /, "") : `place ${words.text}`];
}

function matchWords(walker: Walker, node: Call, spot: Spot): Words {
  const [wanted = null, list = null, ...rest] = node.arguments;
  const value = walker.walk(wanted, { ...spot, single: true, role: "value sought" });
  const place = evaluateScalars(walker, node, spot);
  const where = readHit(walker, list, place, spot);
  for (const other of rest) walker.walk(other, { ...toRangeSpot(spot), role: "look-up" });
  const listWords = where ?? walker.walk(list, { ...toRangeSpot(spot), role: "list searched" }).text;
  const [kind] = rest;
  const given = kind === undefined ? undefined : kind === null ? 0 : evaluateScalars(walker, kind, spot);
  return { text: `the place where ${listWords} ${describeCloseness(node.name, given)(value.text)}`, rank: 9 };
}

/** OFFSET and INDIRECT: the cells they resolve to, and what determined them. */
function explainMove(walker: Walker, node: Call, spot: Spot): Words | undefined {
  const hit = resolveReference(walker, node, spot);
  if (!hit) return undefined;
  const given = node.name === "OFFSET" ? node.arguments.slice(1) : node.arguments;
  for (const argument of given)
    if (argument) walker.walk(argument, { ...toRangeSpot(spot), role: "place", single: true });
  walker.read(hit, spot.role);
  return word(walker.nameReference(hit));
}

const placeNames: Readonly<Record<string, string>> = {
  ROW: "the row number",
  COLUMN: "the column number",
  ROWS: "the number of rows",
  COLUMNS: "the number of columns",
};

/** ROW and similar functions ask where a range is, not what it contains. */
function placeWords(walker: Walker, { name, arguments: [range] }: Call, spot: Spot): Words | undefined {
  if (range?.type !== "area" && range?.type !== "table") return undefined;
  const value = evaluateNode(walker, call(name, range), spot);
  return word(`${typeof value === "number" ? `${String(value)}, ` : ""}${placeNames[name] ?? ""}`);
}

type Call = Extract<Node, { type: "call" }>;
type Given = readonly (Node | null)[];

const found = "the entry found";
/** The role of a found cell: the role of that part of the formula, if it has one. */
const nameTarget = (spot: Spot): string => (spot.role === "" ? found : spot.role);
/** An argument that takes a whole range. */
const toRangeSpot = (spot: Spot): Spot => ({ ...spot, way: spot.way === "cell" ? "nested" : spot.way, single: false });

/** An argument always calculated as an array, whatever the cell. */
const toArraySpot = (spot: Spot): Spot => ({ ...spot, way: "array", single: false });

/** Reads the one list entry that was hit and returns the list's words; undefined if no single entry can be identified. */
function readHit(walker: Walker, list: Node | null, place: unknown, spot: Spot): string | undefined {
  const area = list ? resolveReference(walker, list, toRangeSpot(spot))?.area : undefined;
  if (!area || typeof place !== "number") return undefined;
  const hit = findEntry(area, place);
  if (!hit) return undefined;
  walker.read(new Reference([hit]), "the entry that matched");
  return walker.tools.nameArea(area);
}

/** The nth cell of a row or column. */
function findEntry(area: SheetArea, place: number): SheetArea | undefined {
  if (area.left === area.right && place <= rowsOf(area))
    return { ...area, top: area.top + place - 1, bottom: area.top + place - 1 };
  if (area.top === area.bottom && place <= columnsOf(area))
    return { ...area, left: area.left + place - 1, right: area.left + place - 1 };
  return undefined;
}

/** How the found entry matches the value sought, by the function and its match-type argument. */
function describeCloseness(name: string, kind: unknown): (wanted: string) => string {
  const mode = kind === undefined ? (name === "MATCH" ? 1 : 0) : Number(kind);
  // MATCH uses the opposite sign: 1 is "or less", which XMATCH and XLOOKUP call -1.
  const below = name === "MATCH" ? mode > 0 : mode === -1;
  const above = name === "MATCH" ? mode < 0 : mode === 1;
  if (below) return (wanted) => `is ${wanted} or the next smaller`;
  if (above) return (wanted) => `is ${wanted} or the next larger`;
  return (wanted) => (mode === 2 ? `matches ${wanted}` : `is ${wanted}`);
}

/** XLOOKUP: the entry that matched and the corresponding result; or the replacement if nothing matched. */
function explainXlookup(walker: Walker, node: Call, spot: Spot): Words | undefined {
  const [wanted = null, list = null, results = null, missing = null, mode = null, search = null] = node.arguments;
  const place = evaluateScalars(walker, call("XMATCH", wanted, list, mode ?? constant(0), search ?? constant(1)), spot);
  if (typeof place !== "number" || !results) {
    if (place === undefined) return undefined;
    const value = walker.walk(wanted, { ...spot, single: true, role: "value sought" });
    const all = walker.walk(list, { ...toRangeSpot(spot), role: "list searched" });
    walker.findings.reasons.add(`${value.text} is not in ${all.text}`);
    return missing ? walker.walk(missing, spot) : word("#N/A");
  }
  const value = walker.walk(wanted, { ...spot, single: true, role: "value sought" });
  const listWords =
    readHit(walker, list, place, spot) ?? walker.walk(list, { ...toRangeSpot(spot), role: "list searched" }).text;
  const hit = resolveReference(walker, node, spot);
  if (hit) walker.read(hit, nameTarget(spot));
  const words = hit ? walker.nameReference(hit) : walker.walk(results, toRangeSpot(spot)).text;
  const closeness = describeCloseness("XLOOKUP", mode ? evaluateScalars(walker, mode, spot) : undefined);
  return { text: `${words} (where ${listWords} ${closeness(value.text)})`, rank: 9 };
}

/** VLOOKUP and HLOOKUP, described as the equivalent INDEX and MATCH. */
function explainTableLookup(walker: Walker, name: string, given: Given, spot: Spot): Words | undefined {
  const [wanted = null, table = null, index = null, sorted] = given;
  if (!table || !index) return undefined;
  const vertical = name === "VLOOKUP";
  const kind = sorted === undefined ? true : sorted === null ? false : evaluateScalars(walker, sorted, spot);
  if (kind === undefined) return undefined;
  // A blank cell counts as FALSE.
  const exact = kind === false || kind === 0 || kind === null;
  const list = vertical
    ? call("INDEX", table, constant(0), constant(1))
    : call("INDEX", table, constant(1), constant(0));
  return explainTableHit(walker, call("MATCH", wanted, list, constant(exact ? 0 : 1)), table, index, vertical, spot);
}

/** LOOKUP in one list, with the results in another. */
function explainVectorLookup(
  walker: Walker,
  [wanted = null, list = null, results = null]: Given,
  spot: Spot,
): Words | undefined {
  if (!results) return undefined;
  // LOOKUP calculates its list as an array in every formula; MATCH does so only in array formulas.
  const match = call("MATCH", wanted, list, constant(1));
  const place = evaluateScalars(walker, match, toArraySpot(spot));
  const area = resolveReference(walker, results, toRangeSpot(spot))?.area;
  const hit = area && typeof place === "number" ? findEntry(area, place) : undefined;
  if (!hit) return undefined;
  const words = walker.walk(match, toArraySpot(spot)).text.replace(/^the place /, "");
  const reference = new Reference([hit]);
  walker.read(reference, nameTarget(spot));
  return word(`${walker.nameReference(reference)} (${words})`);
}

function explainTableHit(
  walker: Walker,
  match: Node,
  table: Node,
  index: Node,
  vertical: boolean,
  spot: Spot,
): Words | undefined {
  const place = evaluateScalars(walker, match, spot);
  if (typeof place !== "number") return undefined;
  const at = constant(place);
  const hit = resolveReference(
    walker,
    vertical ? call("INDEX", table, at, index) : call("INDEX", table, index, at),
    spot,
  );
  if (!hit) return undefined;
  const words = walker.walk(match, spot).text.replace(/^the place /, "");
  if (index.type !== "constant") walker.walk(index, { ...toRangeSpot(spot), role: "look-up", single: true });
  walker.read(hit, nameTarget(spot));
  return word(`${walker.nameReference(hit)} (${words})`);
}

/**
 * SUMIF and AVERAGEIF: what is summed, and the condition. The sum range starts at its first cell and takes the size of the criteria range,
 * whatever its own size.
 */
function explainConditionalSum(walker: Walker, { name, arguments: given }: Call, spot: Spot): Words | undefined {
  const [range = null, criterion = null, target = null] = given;
  const asked = range ? resolveReference(walker, range, toRangeSpot(spot))?.area : undefined;
  const first = target ? resolveReference(walker, target, toRangeSpot(spot))?.area : asked;
  if (!asked || !first) return undefined;
  const summed = new Reference([
    { ...first, bottom: first.top + rowsOf(asked) - 1, right: first.left + columnsOf(asked) - 1 },
  ]);
  walker.read(summed, spot.role);
  // Also read in its own right: a range that is itself looked up or offset depends on more than its cells.
  for (const part of [range, target]) if (part && part.type !== "area") walker.walk(part, toRangeSpot(spot));
  const askedWords = walker.walk(range, { ...toRangeSpot(spot), role: target ? "condition" : spot.role }).text;
  const value = walker.walk(criterion, { ...spot, role: "condition", single: true });
  const what = name === "SUMIF" ? "sum" : "mean";
  const wanted = value.rank < 9 ? `(${value.text})` : value.text;
  return { text: `the ${what} of ${walker.nameReference(summed)} where ${askedWords} matches ${wanted}`, rank: 2.5 };
}
