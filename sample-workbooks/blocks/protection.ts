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

/** The same where a table is to be filtered and sorted; Excel sorts on a protected sheet only where every cell of the table is unlocked. */
export const typeAndFilter: NonNullable<WriteSheet["protection"]> = { ...typeOnly, sort: true, autoFilter: true };
