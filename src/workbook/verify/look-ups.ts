import type { Place, SheetArea } from "../book/area";
import type { Inspector } from "../book/inspector";
import { type CallNode, type Node, collectDescendants } from "../formula/parse/syntax";
import type { CellValue } from "../model";

/** A look-up that returns the entry of another key than it asks for. */
export interface LookupFault {
  readonly asked: CellValue;
  /** The key beside the entry that it returns; null if there is none. */
  readonly found: CellValue;
}

/** The cell that a look-up returns: INDEX, VLOOKUP with exact keys, XLOOKUP; undefined for anything else. */
export function findEntry(view: Inspector, node: Node, place: Place): Place | undefined {
  if (node.type !== "call") return undefined;
  if (node.name === "INDEX" || node.name === "OFFSET" || node.name === "XLOOKUP") {
    const [area, ...others] = view.findMovedAreas(node, place);
    const isOne = area && others.length === 0 && area.top === area.bottom && area.left === area.right;
    return isOne ? { sheet: area.sheet, row: area.top, column: area.left } : undefined;
  }
  return node.name === "VLOOKUP" ? findVerticalEntry(view, node, place) : undefined;
}

/** What is wrong with a look-up: the entry that it returns belongs to another key. */
export function findLookupFault(view: Inspector, node: Node, place: Place): LookupFault | undefined {
  if (node.type !== "call") return undefined;
  if (node.name === "INDEX") return findShiftedIndex(view, node, place);
  if (node.name === "VLOOKUP") return findLooseLookup(view, node, place);
  return undefined;
}

/** INDEX whose row is not the one that MATCH finds: MATCH(…)+1, or ranges that begin in different rows. */
function findShiftedIndex(view: Inspector, node: CallNode, place: Place): LookupFault | undefined {
  const entry = findEntry(view, node, place);
  const rowArgument = node.arguments[1];
  if (!entry || !rowArgument) return undefined;
  const [match, ...others] = collectDescendants(rowArgument).filter(isMatch);
  const [lookup, keysNode] = match?.arguments ?? [];
  if (!lookup || !keysNode || others.length > 0) return undefined;
  const [asked = null] = view.evaluateNode(lookup, place) ?? [];
  const [keys] = view.resolveNode(keysNode, place);
  const [values] = node.arguments[0] ? view.resolveNode(node.arguments[0], place) : [];
  if (!keys || !values || typeof asked !== "string") return undefined;
  const isDown = keys.left === keys.right;
  // The keys of a table may be in another sheet or begin elsewhere; what counts is the distance from the start, and the same row where both are in one table.
  const isOneTable = keys.sheet === values.sheet && (isDown ? overlapsRows(keys, values) : false);
  const key = isOneTable
    ? { sheet: keys.sheet, row: entry.row, column: keys.left }
    : isDown
      ? { sheet: keys.sheet, row: keys.top + entry.row - values.top, column: keys.left }
      : { sheet: keys.sheet, row: keys.top, column: keys.left + entry.column - values.left };
  const found = view.readValue(key);
  return isSameKey(asked, found) ? undefined : { asked, found };
}

const overlapsRows = (one: SheetArea, other: SheetArea): boolean => one.top <= other.bottom && other.top <= one.bottom;

const isMatch = (node: Node): node is CallNode =>
  node.type === "call" && (node.name === "MATCH" || node.name === "XMATCH");

/** VLOOKUP of a word among keys that it need not match, which returns another row's entry. */
function findLooseLookup(view: Inspector, node: CallNode, place: Place): LookupFault | undefined {
  const [lookup, table] = node.arguments;
  if (!lookup || !table) return undefined;
  const [asked = null] = view.evaluateNode(lookup, place) ?? [];
  const [given] = view.evaluateNode(node, place) ?? [];
  if (typeof asked !== "string" || typeof given !== "number") return undefined;
  const entry = findVerticalEntry(view, node, place);
  if (entry && view.readValue(entry) === given) return undefined;
  return { asked, found: entry ? "another row" : null };
}

/** The entry of the row whose key is exactly the one asked for. */
function findVerticalEntry(view: Inspector, node: CallNode, place: Place): Place | undefined {
  const [lookup, tableNode, columnNode] = node.arguments;
  if (!lookup || !tableNode || !columnNode) return undefined;
  const [asked = null] = view.evaluateNode(lookup, place) ?? [];
  const [column] = view.evaluateNode(columnNode, place) ?? [];
  const [table] = view.resolveNode(tableNode, place);
  if (!table || typeof column !== "number") return undefined;
  const keys = view.listUsedPlaces({ ...table, right: table.left });
  const row = keys.find((key) => isSameKey(asked, view.readValue(key)))?.row;
  return row === undefined ? undefined : { sheet: table.sheet, row, column: table.left + column - 1 };
}

function isSameKey(asked: CellValue, found: CellValue): boolean {
  if (typeof asked !== "string" || typeof found !== "string") return asked === found;
  // A key may have wildcards.
  return /[*?~]/.test(asked) || asked.trim().toLowerCase() === found.trim().toLowerCase();
}
