import type { Area } from "../../model";
import { formatAreaAddress, parseArea } from "../../book/address";
import {
  applyEdits,
  type Edit,
  editCell,
  freezeCell,
  replaceFormula,
  writeNewCell,
  readPrefix,
  type SheetPatch,
} from "./cell-edits";
import { findPlaces, type RowPlace, type SheetPlaces } from "./sheet-places";

/** The text of a sheet part with the given cells changed and everything else unchanged. */
export function patchSheet(partName: string, text: string, changes: readonly SheetPatch[]): string {
  const byRow = new Map<number, SheetPatch[]>();
  for (const change of [...changes].sort((a, b) => a.row - b.row || a.column - b.column)) {
    const inRow = byRow.get(change.row);
    if (inRow) inRow.push(change);
    else byRow.set(change.row, [change]);
  }
  const places = findPlaces(partName, text, new Set(byRow.keys()));
  const rows = new Map(places.rows.map((place) => [place.row, place]));
  const edits: Edit[] = [];
  const added: SheetPatch[] = [];
  const newRows: [number, SheetPatch[]][] = [];
  for (const [row, inRow] of byRow) {
    const place = rows.get(row);
    if (place) {
      const missing = inRow.filter((change) => !editExisting(place, text, change, edits) && isFilled(change));
      for (const edit of insertCells(place, places, text, missing)) edits.push(edit);
      for (const change of missing) added.push(change);
    } else {
      const filled = inRow.filter(isFilled);
      if (filled.length > 0) newRows.push([row, filled]);
      for (const change of filled) added.push(change);
    }
  }
  return applyEdits(text, [...edits, ...insertRows(places, text, newRows), ...widenDimension(places, text, added)]);
}

const isFilled = ({ value, formula }: SheetPatch): boolean => value !== null || formula !== undefined;

function editExisting(place: RowPlace, text: string, change: SheetPatch, edits: Edit[]): boolean {
  const cell = place.cells.find(({ column }) => column === change.column);
  if (cell && change.formula) edits.push(...replaceFormula(cell, text, change));
  else if (cell && change.freeze) edits.push(...freezeCell(cell, text, change.value));
  else if (cell) edits.push(...editCell(cell, text, change.value, change.array));
  return cell !== undefined;
}

function insertCells(place: RowPlace, places: SheetPlaces, text: string, changes: readonly SheetPatch[]): Edit[] {
  if (changes.length === 0) return [];
  const { element } = place;
  const edits = widenSpans(place, text, changes);
  const written = changes.map((change) =>
    writeNewCell(change, readPrefix(element.tagName), place.style ?? findColumnStyle(places, change.column)),
  );
  if (element.selfClosing) {
    const slash = text.lastIndexOf("/", element.end - 1);
    return [...edits, { start: slash, end: element.end, text: `>${written.join("")}</${element.tagName}>` }];
  }
  changes.forEach(({ column }, index) => {
    const next = place.cells.find((cell) => cell.column > column);
    const at = next?.element.start ?? element.closeStart;
    edits.push({ start: at, end: at, text: written[index] ?? "" });
  });
  return edits;
}

function insertRows(places: SheetPlaces, text: string, rows: readonly [number, readonly SheetPatch[]][]): Edit[] {
  if (rows.length === 0) return [];
  const { data } = places;
  const prefix = readPrefix(data.tagName);
  const written = rows.map(([row, changes]) => {
    const cells = changes.map((change) => writeNewCell(change, prefix, findColumnStyle(places, change.column)));
    return `<${prefix}row r="${row + 1}">${cells.join("")}</${prefix}row>`;
  });
  if (data.selfClosing) {
    const slash = text.lastIndexOf("/", data.end - 1);
    return [{ start: slash, end: data.end, text: `>${written.join("")}</${data.tagName}>` }];
  }
  return rows.map(([row], index) => {
    const next = places.rows.find((place) => place.row > row);
    const at = next?.element.start ?? data.closeStart;
    return { start: at, end: at, text: written[index] ?? "" };
  });
}

function findColumnStyle(places: SheetPlaces, column: number): string | undefined {
  return places.columnStyles.find(({ first, last }) => column >= first && column <= last)?.style;
}

/** A row's `spans` tells readers which columns it fills; a cell beyond it would contradict it (ECMA-376 part 1, 18.3.1.73). */
function widenSpans(place: RowPlace, text: string, changes: readonly SheetPatch[]): Edit[] {
  const spans = place.element.attributes.get("spans")?.value;
  const range = spans && /^(\d+):(\d+)$/.exec(text.slice(spans.start, spans.end));
  if (!range) return [];
  const columns = changes.map(({ column }) => column + 1);
  const first = Math.min(Number(range[1]), ...columns);
  const last = Math.max(Number(range[2]), ...columns);
  return range[0] === `${first}:${last}` ? [] : [{ ...spans, text: `${first}:${last}` }];
}

/** The sheet's used range must hold the new cells too (18.3.1.35). */
function widenDimension(places: SheetPlaces, text: string, added: readonly SheetPatch[]): Edit[] {
  const range = places.dimension?.attributes.get("ref")?.value;
  const area = range && parseArea(text.slice(range.start, range.end));
  if (!area || added.length === 0) return [];
  const wide = added.reduce<Area>(
    ({ top, left, bottom, right }, { row, column }) => ({
      top: Math.min(top, row),
      left: Math.min(left, column),
      bottom: Math.max(bottom, row),
      right: Math.max(right, column),
    }),
    area,
  );
  const same =
    wide.top === area.top && wide.left === area.left && wide.bottom === area.bottom && wide.right === area.right;
  return same ? [] : [{ ...range, text: formatAreaAddress(wide) }];
}
