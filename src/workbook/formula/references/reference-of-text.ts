import type { AreaNode, Node } from "../parse/syntax";
import { refuse } from "../values/refusal";
import type { Scalar, Value } from "../values/value";
import type { AddressStyle, Frame } from "./frame";
import type { Names } from "./names";
import { areaOfR1C1 } from "./r1c1";
import { resolveArea, type SheetNames } from "./references";
import { sentence } from "../../file/problem";

const isAreaNode = (value: AreaNode | Scalar): value is AreaNode =>
  typeof value === "object" && value !== null && "type" in value;

/** What INDIRECT means by a text, seen from a cell: an address in one of the two styles, a name or a table. Undefined where it is none of them. */
export function referenceOfText(
  text: string,
  style: AddressStyle,
  frame: Frame,
  { names, sheetNames }: { readonly names: Names; readonly sheetNames: SheetNames },
  evaluate: (node: Node, frame: Frame) => Value,
): Value | undefined {
  if (style === "R1C1") {
    const area = areaOfR1C1(text, frame);
    if (area !== undefined) return isAreaNode(area) ? resolveArea(area, frame, sheetNames) : area;
  }
  const parsed = names.parseText(text);
  if (style === "R1C1" && parsed?.type === "area") return undefined;
  if (parsed?.type === "name") {
    const meant = names.find(parsed.name.toLowerCase(), parsed.sheet, frame.sheet);
    if (meant && "root" in meant && meant.root.type !== "area" && meant.root.type !== "table")
      return refuse(sentence`INDIRECT to the name ${parsed.name}, which is calculated`);
  }
  // Addresses in a text are not relative to the cell; names and tables are looked up from where it stands.
  const origin = parsed?.type === "area" || parsed?.type === "join" ? { row: 0, column: 0 } : {};
  return parsed && evaluate(parsed, { ...frame, ...origin, scope: undefined });
}
