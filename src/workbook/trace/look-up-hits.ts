import type { Node } from "../formula/parse/syntax";
import { Reference, type SheetArea } from "../formula/values/value";
import { referenceOf, type Spot, type Walker } from "./walk";

export type Call = Extract<Node, { type: "call" }>;
export type Given = readonly (Node | null)[];

const found = "the entry found";
/** What a cell that was found is for: the part of the formula's own purpose, if it has one. */
export const known = (spot: Spot): string => (spot.role === "" ? found : spot.role);
/** An argument that takes a whole range. */
export const inner = (spot: Spot): Spot => ({ ...spot, way: spot.way === "cell" ? "nested" : spot.way, single: false });

/** An argument that is calculated as an array whatever the cell. */
export const whole = (spot: Spot): Spot => ({ ...spot, way: "array", single: false });

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

/** How the entry found answers what was looked for, by the function and its argument for the kind of match. */
export function closenessOf(name: string, kind: unknown): (wanted: string) => string {
  const mode = kind === undefined ? (name === "MATCH" ? 1 : 0) : Number(kind);
  // MATCH counts the other way round: 1 is "or less", which XMATCH and XLOOKUP call -1.
  const below = name === "MATCH" ? mode > 0 : mode === -1;
  const above = name === "MATCH" ? mode < 0 : mode === 1;
  if (below) return (wanted) => `is ${wanted} or the next smaller`;
  if (above) return (wanted) => `is ${wanted} or the next larger`;
  return (wanted) => (mode === 2 ? `matches ${wanted}` : `is ${wanted}`);
}
