import { parseR1C1Ref } from "@borgar/fx/xlsx";
import { sentence } from "../../file/problem";
import type { AreaNode, Edge, Node } from "../parse/syntax";
import { refuse } from "../values/refusal";
import { errors, type Scalar, type Value } from "../values/value";
import { lastColumn, lastRow, type Place } from "../../book/area";
import type { AddressStyle, Frame } from "./frame";
import type { Names, SheetNames } from "../../book/names";
import { resolveArea } from "./references";

const isAreaNode = (value: AreaNode | Scalar): value is AreaNode =>
  typeof value === "object" && value !== null && "type" in value;

/** What INDIRECT refers to by a text, seen from a cell: an address in either style, a name or a table. Undefined if it is none of these. */
export function resolveReferenceText(
  text: string,
  style: AddressStyle,
  frame: Frame,
  { names, sheetNames }: { readonly names: Names; readonly sheetNames: SheetNames },
  evaluate: (node: Node, frame: Frame) => Value,
): Value | undefined {
  if (style === "R1C1") {
    const area = parseR1C1(text, frame);
    if (area !== undefined) return isAreaNode(area) ? resolveArea(area, frame, sheetNames) : area;
  }
  const parsed = names.parseText(text.replace(leadingZeros, "$1"));
  if (style === "R1C1" && parsed?.type === "area") return undefined;
  if (parsed?.type === "name") {
    const meant = names.find(parsed.name.toLowerCase(), parsed.sheet, frame.sheet);
    if (meant && "root" in meant && meant.root.type !== "area" && meant.root.type !== "table")
      return refuse(sentence`INDIRECT to the name ${parsed.name}, which is calculated`);
  }
  // Addresses in a text are not relative to the cell; names and tables are looked up from the cell.
  const origin = parsed?.type === "area" || parsed?.type === "join" ? { row: 0, column: 0 } : {};
  return parsed && evaluate(parsed, { ...frame, ...origin, scope: undefined });
}

/** The row of a plain address may have zeros before it. */
const leadingZeros = /((?:^|[!:])\$?[a-z]{1,3}\$?)0+(?=[1-9]\d{0,6}(?:$|:\$?[a-z]{1,3}\$?\d{1,9}$))/gi;

const addressPart = /^((?:.*!)?)([rc\d[\]:-]+)$/is;

/**
 * The area that a text such as "R2C3:R4C3", "RC[-1]", "C3" or "Sheet1!R1C1" means for a cell: rows and columns in brackets are
 * counted from it. #REF! where that leads off the sheet, undefined where the text is no such address.
 */
function parseR1C1(text: string, place: Place): AreaNode | Scalar | undefined {
  const match = addressPart.exec(text);
  if (!match) return undefined;
  const found = parseR1C1Ref(`${match[1] ?? ""}${(match[2] ?? "").toUpperCase()}`);
  if (!found || "name" in found || !("range" in found)) return undefined;
  if (found.workbookName) return refuse("INDIRECT to another workbook");
  const { r0, r1, c0, c1, $r0, $r1, $c0, $c1 } = found.range;
  const edges = [
    resolveEdge(r0, $r0, place.row, 0, lastRow),
    resolveEdge(r1, $r1, place.row, lastRow, lastRow),
    resolveEdge(c0, $c0, place.column, 0, lastColumn),
    resolveEdge(c1, $c1, place.column, lastColumn, lastColumn),
  ];
  const [top, bottom, left, right] = edges;
  if (!top || !bottom || !left || !right) return errors.reference;
  const sheetName = found.sheetName ?? "";
  const sheets = sheetName === "" ? [] : sheetName.includes(":") ? sheetName.split(":") : [sheetName];
  return { type: "area", sheets, top, bottom, left, right };
}

/** One edge, fixed; a missing index means the whole row or column, undefined is off the sheet. */
function resolveEdge(
  index: number | null | undefined,
  fixed: boolean | null | undefined,
  anchor: number,
  whole: number,
  last: number,
): Edge | undefined {
  if (typeof index !== "number") return { fixed: true, index: whole };
  const at = fixed === true ? index : anchor + index;
  return at >= 0 && at <= last ? { fixed: true, index: at } : undefined;
}
