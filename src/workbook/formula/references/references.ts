import { lastColumn, lastRow, type Place, type SheetArea } from "../../book/area";
import type { SheetNames } from "../../book/names";
import type { AreaNode, Edge, ReferenceOperator } from "../parse/syntax";
import { errors, Reference, type Scalar } from "../values/value";
import { spendArray } from "../work-limits";

type CellPlace = Pick<Place, "row" | "column">;

const index = (edge: Edge, anchor: number, last: number): number => {
  const value = edge.fixed ? edge.index : anchor + edge.index;
  return value >= 0 && value <= last ? value : ((value % (last + 1)) + last + 1) % (last + 1);
};

/** The area that a reference in a formula means at a place; #REF! for a sheet that does not exist. */
export function resolveArea(node: AreaNode, place: Place, sheets: SheetNames): Reference | Scalar {
  const top = index(node.top, place.row, lastRow);
  const bottom = index(node.bottom, place.row, lastRow);
  const left = index(node.left, place.column, lastColumn);
  const right = index(node.right, place.column, lastColumn);
  const area = {
    top: Math.min(top, bottom),
    bottom: Math.max(top, bottom),
    left: Math.min(left, right),
    right: Math.max(left, right),
  };
  const [firstName, lastName] = node.sheets;
  if (firstName === undefined) return new Reference([{ sheet: place.sheet, ...area }]);
  const first = sheets.find(firstName);
  const last = lastName === undefined ? first : sheets.find(lastName);
  if (first === undefined || last === undefined) return errors.reference;
  if (lastName === undefined) return new Reference([{ sheet: first, ...area }]);
  const areas: SheetArea[] = [];
  for (let sheet = Math.min(first, last); sheet <= Math.max(first, last); sheet += 1) areas.push({ sheet, ...area });
  return new Reference(areas, true);
}

/** The cell that a reference to a single cell of the formula's own sheet means at a place; undefined for any other reference. */
export function resolveOwnCell({ sheets, top, bottom, left, right }: AreaNode, place: Place): CellPlace | undefined {
  if (sheets.length > 0 || top.index !== bottom.index || left.index !== right.index) return undefined;
  if (top.fixed !== bottom.fixed || left.fixed !== right.fixed) return undefined;
  return { row: index(top, place.row, lastRow), column: index(left, place.column, lastColumn) };
}

/** The range, union or intersection of two references. */
export function joinReferences(operator: ReferenceOperator, left: Reference, right: Reference): Reference | Scalar {
  if (left.acrossSheets || right.acrossSheets) return errors.value;
  // Names of unions of names could double them without end.
  spendArray(operator === " " ? left.areas.length * right.areas.length : left.areas.length + right.areas.length);
  if (operator === ",") return new Reference([...left.areas, ...right.areas]);
  if (operator === " ") {
    const shared = left.areas.flatMap((a) => right.areas.flatMap((b) => intersectAreas(a, b) ?? []));
    return shared.length > 0 ? new Reference(shared) : errors.null;
  }
  const areas = [...left.areas, ...right.areas];
  const sheet = areas[0]?.sheet ?? 0;
  if (areas.some((area) => area.sheet !== sheet)) return errors.value;
  return new Reference([
    {
      sheet,
      top: areas.reduce((least, area) => Math.min(least, area.top), lastRow),
      left: areas.reduce((least, area) => Math.min(least, area.left), lastColumn),
      bottom: areas.reduce((most, area) => Math.max(most, area.bottom), 0),
      right: areas.reduce((most, area) => Math.max(most, area.right), 0),
    },
  ]);
}

/** The cells that two areas share, if any. */
function intersectAreas(a: SheetArea, b: SheetArea): SheetArea | undefined {
  const top = Math.max(a.top, b.top);
  const left = Math.max(a.left, b.left);
  const bottom = Math.min(a.bottom, b.bottom);
  const right = Math.min(a.right, b.right);
  return a.sheet === b.sheet && top <= bottom && left <= right
    ? { sheet: a.sheet, top, left, bottom, right }
    : undefined;
}

/** Implicit intersection: the one cell of an area in the formula's own row or column, or #VALUE!. */
export function pickImplicitCell(reference: Reference, place: Place): SheetArea | Scalar {
  const area = reference.area;
  if (!area) return errors.value;
  const row = area.top === area.bottom ? area.top : place.row >= area.top && place.row <= area.bottom ? place.row : -1;
  const column =
    area.left === area.right ? area.left : place.column >= area.left && place.column <= area.right ? place.column : -1;
  const isBlock = area.top !== area.bottom && area.left !== area.right;
  if (row < 0 || column < 0 || isBlock) return errors.value;
  return { sheet: area.sheet, top: row, bottom: row, left: column, right: column };
}
