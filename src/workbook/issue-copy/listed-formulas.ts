import { SharedFormula } from "../file/sheet/shared-formula";
import { asStored, asTyped } from "../formula/parse/as-typed";
import { columnsOf, rowsOf } from "../formula/values/value";
import type { Area } from "../model";

const kinds = ["spilling", "in braces", "one cell"] as const;
/** How a frozen formula was stored: filling cells as far as its result goes, in braces over fixed cells, or in one cell. */
export type FrozenKind = (typeof kinds)[number];

/** A frozen formula. */
export interface ListedFormula {
  readonly sheet: string;
  /** The cells that it filled. */
  readonly area: Area;
  readonly kind: FrozenKind;
  /** As it is typed in Excel, with its "=". */
  readonly formula: string;
}

/** A line of the list: formulas that are the same one in every cell of an area, or in every row or column that each of them fills. */
export interface FormulaLine {
  readonly sheet: string;
  /** All cells that the formulas of the line filled. */
  readonly area: Area;
  readonly count: number;
  /** The kind as the list writes it (kindText). */
  readonly kind: string;
  /** That of the first cell. */
  readonly formula: string;
}

/** The kind, and for several formulas that fill more than a cell each, how much: "spilling, 1 × 3 each" is one row, three columns. */
export function kindText(kind: FrozenKind, count: number, each: Area): string {
  const isCell = rowsOf(each) === 1 && columnsOf(each) === 1;
  return count === 1 || isCell ? kind : `${kind}, ${rowsOf(each)} × ${columnsOf(each)} each`;
}

/** No list that was made by issuing a copy fills more cells. */
const mostCells = 4_000_000;

/** The formulas of a line, each with its own cells; none where the line is not one of frozen formulas. */
export function formulasOfLine({ sheet, area, count, kind: text, formula }: FormulaLine): ListedFormula[] {
  const [, name, down, across] = /^(.*?)(?:, (\d+) × (\d+) each)?$/.exec(text) ?? [];
  const kind = kinds.find((one) => one === name);
  if (kind === undefined || rowsOf(area) * columnsOf(area) > mostCells) return [];
  if (count === 1) return [{ sheet, area, kind, formula }];
  const [height, width] = [Number(down ?? 1), Number(across ?? 1)];
  if (!(height > 0 && width > 0) || count * height * width !== rowsOf(area) * columnsOf(area)) return [];
  const first = new SharedFormula(asStored(formula), area.top, area.left);
  const found: ListedFormula[] = [];
  for (let top = area.top; top <= area.bottom; top += height)
    for (let left = area.left; left <= area.right; left += width)
      found.push({
        sheet,
        area: { top, left, bottom: top + height - 1, right: left + width - 1 },
        kind,
        formula: asTyped(first.at(top, left)),
      });
  return found;
}
