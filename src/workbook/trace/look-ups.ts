import type { Node } from "../formula/parse/syntax";
import { conditionalWords } from "./conditional-sums";
import { closenessOf, hitIn, inner, known, type Call } from "./look-up-hits";
import { tableWords, vectorWords, xlookupWords } from "./table-look-ups";
import { call, referenceOf, scalarsOf, valueOf, word, type Spot, type Walker, type Words } from "./walk";

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
