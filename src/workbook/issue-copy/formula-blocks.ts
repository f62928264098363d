import { SharedFormula } from "../file/sheet/shared-formula";
import { asStored, asTyped } from "../formula/parse/as-typed";
import { relativeKey } from "../formula/parse/relative-key";
import { columnsOf, rowsOf } from "../formula/values/value";
import type { Area } from "../model";
import type { FrozenCell } from "./frozen-cells";
import type { FrozenKind } from "./listed-formulas";

/** Frozen formulas that are the same one in every cell of an area; each may fill several cells, all equally many. */
export interface FormulaBlock {
  readonly sheet: number;
  readonly area: Area;
  readonly kind: FrozenKind;
  readonly count: number;
  readonly first: FrozenCell;
  /** The same for blocks of one formula in several places of a sheet. */
  readonly key: string;
}

/** The frozen formulas as blocks: down the columns first, then equal columns together. */
export function formulaBlocks(frozen: readonly FrozenCell[]): FormulaBlock[] {
  const groups = new Map<string, FormulaBlock[]>();
  for (const cell of frozen) {
    const block = blockOf(cell);
    const group = groups.get(block.key);
    if (group) group.push(block);
    else groups.set(block.key, [block]);
  }
  return [...groups.values()].flatMap((group) => joined(joined(group, isBelow), isBeside));
}

function blockOf(first: FrozenCell): FormulaBlock {
  const { sheet, row, column, formula, area } = first;
  const kind = formula.dynamic ? "spilling" : formula.array ? "in braces" : "one cell";
  const relative = relativeKey(formula.text, row, column);
  return { sheet, area, kind, count: 1, first, key: [sheet, kind, rowsOf(area), columnsOf(area), relative].join(" ") };
}

/** Blocks that follow one another become one, where the formula of the first gives that of the next letter for letter. */
function joined(blocks: readonly FormulaBlock[], follows: (one: Area, next: Area) => boolean): FormulaBlock[] {
  const across = follows === isBeside;
  const order = (a: Area, b: Area): number =>
    across ? a.top - b.top || a.left - b.left : a.left - b.left || a.top - b.top;
  const result: FormulaBlock[] = [];
  for (const next of [...blocks].sort((a, b) => order(a.area, b.area))) {
    const last = result.at(-1);
    if (last && follows(last.area, next.area) && gives(last.first, next.first)) {
      const { bottom, right } = next.area;
      result[result.length - 1] = { ...last, area: { ...last.area, bottom, right }, count: last.count + next.count };
    } else result.push(next);
  }
  return result;
}

const isBelow = (one: Area, next: Area): boolean =>
  next.left === one.left && next.right === one.right && next.top === one.bottom + 1;
const isBeside = (one: Area, next: Area): boolean =>
  next.top === one.top && next.bottom === one.bottom && next.left === one.right + 1;

const sources = new WeakMap<FrozenCell, SharedFormula>();

function gives(first: FrozenCell, other: FrozenCell): boolean {
  let source = sources.get(first);
  if (!source) {
    source = new SharedFormula(asStored(asTyped(first.formula.text)), first.row, first.column);
    sources.set(first, source);
  }
  return [first, other].every(({ row, column, formula }) => asTyped(source.at(row, column)) === asTyped(formula.text));
}
