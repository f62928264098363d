import { columnOf, lettersOf } from "./address";
import type { CellStyle } from "./hucre";
import type { Sheet } from "./sheet";
import { looks, native, type Side } from "./style";

/** Where a form's parts stand: the label's column, the value's, and the unit's; what lies between is ruled. */
export interface FormColumns {
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
export function formLines(sheet: Sheet, first: number, columns: FormColumns, lines: readonly FormLine[]): void {
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
