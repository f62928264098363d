import { columnOf, lettersOf } from "./address";
import { columnHeads } from "./heading";
import type { CellStyle, DataValidation } from "./hucre";
import type { Sheet } from "./sheet";
import { input, type Side } from "./style";

/** A column that is typed into, or one that follows from the others. */
export interface TypedColumn {
  /** As columnHeads takes it. */
  readonly head: string;
  readonly format?: string;
  readonly align?: Side;
  /** What stands in a row at first, rows counted from 0. */
  readonly typed?: (index: number) => string | number | null | undefined;
  /** Rows whose text belongs to the layout and is not typed into. */
  readonly fixed?: (index: number) => string | undefined;
  /** The formula of a row, by the row's number. */
  readonly formula?: (row: number, index: number) => string;
  /** The look of what is not typed into. */
  readonly look?: CellStyle;
  /** Rules of the cells that are typed into, from the range's first and last row. */
  readonly rule?: (range: string) => DataValidation;
  /** The first row that the rule is for, where the rows before it are fixed. */
  readonly ruleFrom?: number;
}

interface TypedTable {
  /** The row of the heads; the first row follows it. */
  readonly heads: number;
  readonly left: string;
  readonly rows: number;
  readonly columns: readonly TypedColumn[];
}

/** A table with spare rows for a person to fill: heads, cells to type into with their rules, and formulas beside them. */
export function typedTable(sheet: Sheet, { heads, left, rows, columns }: TypedTable): void {
  columnHeads(
    sheet,
    heads,
    left,
    columns.map(({ head }) => head),
  );
  const first = heads + 1;
  columns.forEach((column, offset) => {
    const letters = lettersOf(columnOf(left) + offset);
    const { format, typed, fixed, formula, look, rule, ruleFrom = 0 } = column;
    const align = column.align ?? (column.head.startsWith("<") ? "left" : "right");
    for (let index = 0; index < rows; index++) {
      const place = `${letters}${first + index}`;
      const words = fixed?.(index);
      if (words !== undefined) sheet.put(place, words, look ?? {});
      else if (formula) sheet.formula(place, formula(first + index, index), look ?? {});
      else sheet.put(place, typed?.(index) ?? null, input(format, align));
    }
    if (rule) sheet.validate(rule(`${letters}${first + ruleFrom}:${letters}${first + rows - 1}`));
  });
}
