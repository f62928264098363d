import { columnOf, lettersOf } from "./address";
import { writeColumnHeads } from "./heading";
import type { CellStyle, DataValidation } from "./hucre";
import type { Sheet } from "./sheet";
import { input, looks, native, type Side } from "./style";

/** Where a form's parts stand: the label's column, the value's, and the unit's; what lies between is ruled. */
interface FormColumns {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
}

/** What a line of a form shows beside its label: a value to type, or a formula. */
export interface FormLine {
  readonly label: string;
  readonly typed?: string | number | null;
  readonly formula?: string;
  readonly format?: string;
  readonly align?: Side;
  readonly unit?: string;
  /** For a formula whose value stands out. */
  readonly look?: CellStyle;
}

/** Label, value and unit, a line each, from a row on. */
export function writeFormLines(sheet: Sheet, first: number, columns: FormColumns, lines: readonly FormLine[]): void {
  const between = columnOf(columns.value) - columnOf(columns.label) - 1;
  lines.forEach(({ label, typed, formula, format, align, unit, look }, index) => {
    const row = first + index;
    sheet.rich(`${columns.label}${row}`, label, looks.label);
    if (between > 0)
      sheet.paint(
        `${lettersOf(columnOf(columns.label) + 1)}${row}:${lettersOf(columnOf(columns.value) - 1)}${row}`,
        looks.label,
      );
    if (formula !== undefined) sheet.formula(`${columns.value}${row}`, formula, look ?? native(format, align));
    else sheet.type(`${columns.value}${row}`, typed ?? null, format, align);
    sheet.rich(`${columns.unit}${row}`, unit ?? "", looks.unit);
  });
}

/** A column that is typed into, or one that follows from the others. */
interface TypedColumn {
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
export function writeTypedTable(sheet: Sheet, { heads, left, rows, columns }: TypedTable): void {
  writeColumnHeads(
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
