import type { Place } from "../book/area";
import type { Inspector } from "../book/inspector";

export type Line = "column" | "row";

const furthest = 3;

/** The place so many steps along a column (down) or a row (to the right). */
export function along({ sheet, row, column }: Place, line: Line, steps: number): Place {
  return line === "column" ? { sheet, row: row + steps, column } : { sheet, row, column: column + steps };
}

/** The unbroken formulas right before and right behind a cell in its column or row, nearest first, three at most; array formulas are none. */
export function neighbours(view: Inspector, place: Place, line: Line): readonly [Place[], Place[]] {
  const walk = (step: 1 | -1): Place[] => {
    const found: Place[] = [];
    for (let steps = step; Math.abs(steps) <= furthest; steps += step) {
      const next = along(place, line, steps);
      const formula = view.cell(next)?.formula;
      if (!formula || formula.array || formula.dataTable) break;
      found.push(next);
    }
    return found;
  };
  return [walk(-1), walk(1)];
}
