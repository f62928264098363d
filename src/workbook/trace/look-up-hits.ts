import type { Node } from "../formula/syntax";
import { Reference, type SheetArea } from "../formula/value";
import { referenceOf, type Spot, type Walker } from "./walk";

export type Call = Extract<Node, { type: "call" }>;
export type Given = readonly (Node | null)[];

const found = "the entry found";
/** What a cell that was found is for: the part of the formula's own purpose, if it has one. */
export const known = (spot: Spot): string => (spot.role === "" ? found : spot.role);
/** An argument that takes a whole range. */
export const inner = (spot: Spot): Spot => ({ ...spot, way: spot.way === "cell" ? "nested" : spot.way, single: false });

/** Reads the one entry of a list that was hit and gives the list's words; undefined where no single one can be told. */
export function hitIn(walker: Walker, list: Node | null, place: unknown, spot: Spot): string | undefined {
  const area = list ? referenceOf(walker, list, inner(spot))?.area : undefined;
  if (!area || typeof place !== "number") return undefined;
  const hit = entryOf(area, place);
  if (!hit) return undefined;
  walker.read(new Reference([hit]), "the entry that matched");
  return walker.tools.nameArea(area);
}

/** The nth cell of a row or column. */
export function entryOf(area: SheetArea, place: number): SheetArea | undefined {
  if (area.left === area.right && place <= area.bottom - area.top + 1)
    return { ...area, top: area.top + place - 1, bottom: area.top + place - 1 };
  if (area.top === area.bottom && place <= area.right - area.left + 1)
    return { ...area, left: area.left + place - 1, right: area.left + place - 1 };
  return undefined;
}
