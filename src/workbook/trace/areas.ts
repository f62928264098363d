import { areaAddress, quotedSheetName } from "../formula/parse/address";
import type { SheetArea } from "../formula/values/value";
import type { Read } from "./walk";

/** Cells put together into rectangles, down first and then across. */
export function rectanglesOf(
  cells: readonly { readonly sheet: number; readonly row: number; readonly column: number }[],
): SheetArea[] {
  const singles = cells.map(({ sheet, row, column }) => ({
    sheet,
    top: row,
    bottom: row,
    left: column,
    right: column,
  }));
  return mergedAreas(singles, "both");
}

/** Areas put together where they touch or overlap along a whole side: one above the other, side by side, or both. */
function mergedAreas(areas: readonly SheetArea[], way: "down" | "across" | "both"): SheetArea[] {
  const down = way === "across" ? areas : merged([...areas].sort(byColumns), below);
  return way === "down" ? [...down] : merged([...down].sort(byRows), beside);
}

type Join = (a: SheetArea, b: SheetArea) => SheetArea | undefined;

const below: Join = (a, b) =>
  a.sheet === b.sheet && a.left === b.left && a.right === b.right && b.top <= a.bottom + 1
    ? { ...a, bottom: Math.max(a.bottom, b.bottom) }
    : undefined;
const beside: Join = (a, b) =>
  a.sheet === b.sheet && a.top === b.top && a.bottom === b.bottom && b.left <= a.right + 1
    ? { ...a, right: Math.max(a.right, b.right) }
    : undefined;
const byColumns = (a: SheetArea, b: SheetArea): number =>
  a.sheet - b.sheet || a.left - b.left || a.right - b.right || a.top - b.top;
const byRows = (a: SheetArea, b: SheetArea): number =>
  a.sheet - b.sheet || a.top - b.top || a.bottom - b.bottom || a.left - b.left;

function merged(sorted: readonly SheetArea[], join: Join): SheetArea[] {
  const kept: SheetArea[] = [];
  for (const area of sorted) {
    const last = kept.at(-1);
    const both = last && join(last, area);
    if (both) kept[kept.length - 1] = both;
    else kept.push(area);
  }
  return kept;
}

/** What formulas copied over `copies` read, put together along them, in the order in which the roles were first met. */
export function mergedReads(reads: readonly Read[], copies: SheetArea): Read[] {
  const way = copies.left === copies.right ? "down" : copies.top === copies.bottom ? "across" : "both";
  const byRole = new Map<string, SheetArea[]>();
  for (const { role, area } of reads) {
    const known = byRole.get(role);
    if (known) known.push(area);
    else byRole.set(role, [area]);
  }
  return [...byRole].flatMap(([role, areas]) => mergedAreas(areas, way).map((area) => ({ role, area })));
}

export const overlap = (a: SheetArea, b: SheetArea): boolean =>
  a.sheet === b.sheet && a.top <= b.bottom && a.bottom >= b.top && a.left <= b.right && a.right >= b.left;

/** Sheet!B4:B9. */
export function addressOf(area: SheetArea, sheetName: string): string {
  return `${quotedSheetName(sheetName)}!${areaAddress(area)}`;
}
