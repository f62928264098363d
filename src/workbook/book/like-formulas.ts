import { quoteSheetName } from "../book/address";
import type { Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import { type Book, buildCellKey, type Formula } from "../model";

/** Two sheets of the same layout, such as those of the two directions. */
export interface Twins {
  readonly sheets: readonly [number, number];
}

const leastFormulas = 12;
const leastShareAlike = 0.85;

/** Pairs of sheets with the same formulas in the same cells, each referring to its own sheet. */
export function findTwins(view: Inspector): Twins[] {
  const patterns = view.book.sheets.map(() => new Map<number, string>());
  // Most formulas are copies of others, with the same pattern.
  const shapes = new Map<string, string>();
  for (const place of view.listFormulaPlaces()) {
    const pattern = view.findPattern(place) ?? "";
    let shape = shapes.get(pattern);
    if (shape === undefined) shapes.set(pattern, (shape = describeShape(pattern)));
    patterns[place.sheet]?.set(buildCellKey(place.row, place.column), shape);
  }
  const twins: Twins[] = [];
  for (let first = 0; first < patterns.length; first++) {
    for (let second = first + 1; second < patterns.length; second++) {
      if (areAlike(patterns[first]!, patterns[second]!)) twins.push({ sheets: [first, second] });
    }
  }
  return twins;
}

function areAlike(one: ReadonlyMap<number, string>, other: ReadonlyMap<number, string>): boolean {
  const most = Math.max(one.size, other.size);
  if (Math.min(one.size, other.size) < leastFormulas || Math.min(one.size, other.size) < leastShareAlike * most)
    return false;
  let alike = 0;
  for (const [key, shape] of one) if (other.get(key) === shape) alike++;
  return alike >= leastShareAlike * most;
}

/** A formula's pattern without texts and sheet names. */
export function describeShape(pattern: string): string {
  return pattern.replace(/"[^"]*"/g, '""').replace(/(?:'(?:[^']|'')*'|(?<![\p{L}\p{N}_.])[\p{L}\p{N}_.]+)!/gu, "!");
}

/** A formula's pattern as its twin would have it: own sheet and other sheet by role, texts omitted. */
export function translatePattern(view: Inspector, place: Place, other: number): string {
  const own = writePrefix(view.book, place.sheet);
  const twin = writePrefix(view.book, other);
  const pattern = (view.findPattern(place) ?? "").replace(/"[^"]*"/g, '""');
  return pattern.replaceAll(own, "<own>!").replaceAll(twin, "<other>!");
}

function writePrefix(book: Book, sheet: number): string {
  return `${quoteSheetName(book.sheets[sheet]?.name ?? "")}!`;
}

/** The other sheets with the same layout as a sheet. */
export function listTwins(twins: readonly Twins[], sheet: number): number[] {
  return twins.flatMap(({ sheets: [one, other] }) => (one === sheet ? [other] : other === sheet ? [one] : []));
}

export type Line = "column" | "row";

const furthest = 3;

/** The place a number of steps along a column (down) or a row (to the right). */
export function stepAlong({ sheet, row, column }: Place, line: Line, steps: number): Place {
  return line === "column" ? { sheet, row: row + steps, column } : { sheet, row, column: column + steps };
}

/** Whether a formula is one of an array over several cells; an array of one cell is copied like any other formula. */
export const fillsSeveral = ({ array }: Pick<Formula, "array">): boolean =>
  array !== undefined && (array.top !== array.bottom || array.left !== array.right);

/** The unbroken runs of formulas just before and just after a cell in its column or row, nearest first, at most three; array formulas over several cells end a run. */
export function findNeighbours(view: Inspector, place: Place, line: Line): readonly [Place[], Place[]] {
  const walk = (step: 1 | -1): Place[] => {
    const found: Place[] = [];
    for (let steps = step; Math.abs(steps) <= furthest; steps += step) {
      const next = stepAlong(place, line, steps);
      const formula = view.findCell(next)?.formula;
      if (!formula || formula.dataTable || fillsSeveral(formula)) break;
      found.push(next);
    }
    return found;
  };
  return [walk(-1), walk(1)];
}
