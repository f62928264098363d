import type { CellValue } from "../../model";
import { isInside, type Place, placeKey, shareCells, type SheetArea, sizeOf } from "../../book/area";

import type { Finding } from "../finding";
import { stepAlong, findNeighbours, listTwins } from "../../book/like-formulas";
import type { Check, Review } from "../review";
import { showFormula } from "../../formatting";

/** Empty cells with the same formula above and below, or with one in the same cell of a sheet of the same layout. */
export const findMissingFormulas: Check = (review) => {
  const { view, twins } = review;
  const found = new Map<number, Finding>();
  const isEmpty = (place: Place): boolean => {
    const cell = view.findCell(place);
    return !cell?.formula && (cell?.value ?? null) === null && !view.findOwner(place);
  };
  const add = (place: Place, text: string, where: string): void => {
    found.set(placeKey(place), {
      kind: "formula missing",
      severity: "warning",
      place: view.formatAddress(place),
      what: `The cell is empty, but ${where} (${showFormula(text)}).`,
      why: "A deleted formula leaves a gap that sums and counts silently skip.",
      todo: "Copy the neighbouring formula into it.",
    });
  };
  const alike = view.book.sheets.map((_, sheet) => listTwins(twins, sheet));
  for (const place of view.listFormulaPlaces()) {
    const text = view.findCell(place)?.formula?.text ?? "";
    for (const sheet of alike[place.sheet] ?? []) {
      const twin = { ...place, sheet };
      if (isEmpty(twin) && !isAddition(review, place, sheet))
        add(twin, text, `the sheet of the same layout has a formula in ${view.formatAddress(place)}`);
    }
    const gap = stepAlong(place, "column", 1);
    if (!isEmpty(gap)) continue;
    const [before, after] = findNeighbours(view, gap, "column");
    const patterns = new Set([...before.slice(0, 2), ...after.slice(0, 2)].map((near) => view.findPattern(near)));
    const isRun = before.length >= 2 && after.length >= 2 && patterns.size === 1;
    if (isRun && hasInputs(review, place, gap)) add(gap, text, "the cells above and below have the same formula");
  }
  return [...found.values()];
};

/**
 * Whether a column, or a row, was added to one of two sheets of the same layout: the other has nothing in it at all, not even a heading, and
 * none of its formulas reads it.
 */
const isAddition = (review: Review, { row, column }: Place, twin: number): boolean =>
  isUnused(review, { sheet: twin, top: 0, bottom: Infinity, left: column, right: column }) ||
  isUnused(review, { sheet: twin, top: row, bottom: row, left: 0, right: Infinity });

function isUnused({ view }: Review, strip: SheetArea): boolean {
  const isFilled = [...(view.book.sheets[strip.sheet]?.cells.values() ?? [])].some(
    ({ row, column, formula, value }) => (formula || value !== null) && isInside(strip, row, column),
  );
  if (isFilled) return false;
  return !view
    .listFormulaPlaces()
    .some(
      (reader) => reader.sheet === strip.sheet && view.listPrecedents(reader).some((area) => shareCells(area, strip)),
    );
}

/** Whether the cells that a copy of the formula would read are all filled: in a row left free by design they are not. */
function hasInputs({ view }: Review, formula: Place, gap: Place): boolean {
  const nodes = view.parseFormulaAt(formula)?.precedents ?? [];
  const read = nodes
    .flatMap((node) => view.resolveNode(node, gap))
    .filter(({ top, sheet }) => sheet === gap.sheet && top === gap.row);
  return (
    read.length > 0 &&
    read.every((area) => {
      const places = view.listUsedPlaces(area);
      return places.length === sizeOf(area) && places.every((place) => !isBlank(view.readValue(place)));
    })
  );
}

const isBlank = (value: CellValue): boolean => value === null || value === "";
