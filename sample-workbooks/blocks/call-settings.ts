import type { Sheet } from "./sheet";
import { looks, native } from "./style";

/** A label and the formula of its value, as a call of the add-in takes its settings: two columns, blanks allowed. */
export type Setting = readonly [label: string, formula: string, format?: string];

/** Writes settings one below the other and gives their range. */
export function settingsBlock(
  sheet: Sheet,
  [label, value]: readonly [label: string, value: string],
  first: number,
  settings: readonly Setting[],
): string {
  settings.forEach(([name, formula, format], index) => {
    sheet.put(`${label}${first + index}`, name, looks.label);
    sheet.formula(`${value}${first + index}`, formula, native(format, "left"));
  });
  return `$${label}$${first}:$${value}$${first + settings.length - 1}`;
}

/** The value of another cell, where a blank stays blank instead of becoming 0. */
export const kept = (cell: string) => `IF(${cell}="","",${cell})`;
