import { mayBeNumber } from "../../formula/values/number-text";
import { areaKey, isInside, placeKey, type SheetArea, type Place } from "../../book/area";

import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatCellValue, showFormula } from "../../words";

/** Figures stored as text where formulas expect numbers: sums and counts skip them, and the add-in refuses them. */
export const findNumbersAsText: Check = (review) => {
  const { view } = review;
  const suspects = findTextsLikeNumbers(review);
  if (suspects.length === 0) return [];
  const found = new Map<number, Finding>();
  const readers = new Map<string, { readonly area: SheetArea; readonly reader: Place }>();
  for (const reader of view.listFormulaPlaces())
    for (const area of view.listPrecedents(reader)) {
      const key = areaKey(area);
      if (!readers.has(key) || review.isInChain(reader)) readers.set(key, { area, reader });
    }
  for (const { area, reader } of readers.values()) {
    const inside = suspects.filter(
      ({ place }) =>
        place.sheet === area.sheet && isInside(area, place.row, place.column) && !found.has(placeKey(place)),
    );
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
