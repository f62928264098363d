import { collectDescendants, listDescendants, type Node } from "../../formula/parse/syntax";
import { mayBeNumber } from "../../formula/values/number-text";
import { areaKey, isInside, placeKey, type SheetArea, type Place } from "../../book/area";

import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatCellValue, showFormula } from "../../formatting";

/** Figures stored as text where formulas expect numbers: sums and counts skip them, and the add-in refuses them. */
export const findNumbersAsText: Check = (review) => {
  const { view } = review;
  const suspects = findTextsLikeNumbers(review);
  if (suspects.length === 0) return [];
  const found = new Map<number, Finding>();
  const readers = new Map<string, { readonly area: SheetArea; readonly reader: Place }>();
  for (const reader of view.listFormulaPlaces())
    for (const area of view.listPrecedents(reader)) {
      if (!suspects.some(({ place }) => isPlaceInside(area, place))) continue;
      const figures = omitKeys(review, reader, area);
      if (!figures) continue;
      const key = areaKey(figures);
      if (!readers.has(key) || review.isInChain(reader)) readers.set(key, { area: figures, reader });
    }
  for (const { area, reader } of readers.values()) {
    const inside = suspects.filter(({ place }) => isPlaceInside(area, place) && !found.has(placeKey(place)));
    if (inside.length === 0) continue;
    const isAmongOthers = view.listCells(area).some((place) => view.readNumber(place) !== undefined);
    for (const { place, text } of inside) {
      // Judge a lone cell by its neighbours: a report number or a year among words is legitimately text.
      if (!isAmongOthers && !isAmongNumbers(review, place)) continue;
      found.set(placeKey(place), reportNumberAsText(review, place, reader, text));
    }
  }
  return [...found.values()];
};

const isPlaceInside = (area: SheetArea, { sheet, row, column }: Place): boolean =>
  area.sheet === sheet && isInside(area, row, column);

/** Functions that look something up: the key, and what it is looked for in. */
const lookups = new Set(["VLOOKUP", "HLOOKUP", "XLOOKUP", "LOOKUP", "MATCH", "XMATCH"]);

/** An area as a formula reads figures from it; keys of a look-up may be text by right, such as openings named "1" and "2". Undefined if all are keys. */
function omitKeys({ view }: Review, reader: Place, area: SheetArea): SheetArea | undefined {
  const root = view.parseFormulaAt(reader)?.root;
  if (!root) return area;
  const name = view.formatArea(area);
  const [keys, tables] = [new Set<Node>(), new Set<Node>()];
  for (const node of listDescendants(root)) {
    if (node.type !== "call" || !lookups.has(node.name)) continue;
    const [key, within] = node.arguments;
    const isTable = node.name === "VLOOKUP" && area.right > area.left;
    if (key) for (const part of collectDescendants(key)) keys.add(part);
    if (within) for (const part of collectDescendants(within)) (isTable ? tables : keys).add(part);
  }
  const uses = listDescendants(root).filter((node) =>
    view.resolveNode(node, reader).some((one) => view.formatArea(one) === name),
  );
  if (uses.length === 0 || uses.some((node) => !keys.has(node) && !tables.has(node))) return area;
  return uses.some((node) => tables.has(node)) ? { ...area, left: area.left + 1 } : undefined;
}

/** Typed texts that look like numbers: rarely any, which saves walking through every area that formulas read. */
function findTextsLikeNumbers({ view, book }: Review): { readonly place: Place; readonly text: string }[] {
  return book.sheets.flatMap(({ cells }, sheet) =>
    [...cells.values()].flatMap(({ row, column, value }) => {
      if (typeof value !== "string" || !looksLikeNumber(value)) return [];
      const place = { sheet, row, column };
      return view.isTyped(place) ? [{ place, text: value }] : [];
    }),
  );
}

function looksLikeNumber(text: string): boolean {
  const plain = text
    .trim()
    .replace(/[−–]/g, "-")
    .replace(/[\s\u00a0\u202f]/g, "");
  return /^[-+]?[\d.,'’]*\d[\d.,'’]*%?$/.test(plain) && mayBeNumber(plain);
}

function isAmongNumbers({ view }: Review, { sheet, row, column }: Place): boolean {
  return [row - 1, row + 1].some((near) => near >= 0 && view.readNumber({ sheet, row: near, column }) !== undefined);
}

function reportNumberAsText({ view, isInChain }: Review, place: Place, reader: Place, text: string): Finding {
  return {
    kind: "number as text",
    severity: isInChain(place) ? "error" : "warning",
    place: view.formatAddress(place),
    what: `${formatCellValue(text)} is text, not a number; ${view.formatAddress(reader)} reads it (${showFormula(view.findCell(reader)?.formula?.text ?? "")}).`,
    why: "Sums, averages and counts silently skip text; the add-in refuses it.",
    todo: "Retype the number with the decimal separator that Excel uses.",
  };
}
