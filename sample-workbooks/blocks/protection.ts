import type { WriteSheet } from "./hucre";

/**
 * Unlocked cells can be typed into, everything else is protected without a password: a guard against slips, not a lock. Column
 * widths, row heights and cell formats stay free.
 */
export const typeOnly: NonNullable<WriteSheet["protection"]> = {
  sheet: true,
  formatCells: true,
  formatColumns: true,
  formatRows: true,
};
