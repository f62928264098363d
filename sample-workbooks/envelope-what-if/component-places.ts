import { addressOf, columnOf, lettersOf, onSheet } from "../blocks/address";
import { sheets, variantCount } from "./places";

/** Rows of the components: the joints first, whose lengths follow from the outline. */
export const componentRows = { first: 9, joints: 3, last: 23, total: 24 } as const;

const firstAmount = columnOf("F");

/** The column in which a variant's amounts stand, by its place among the variants. */
export function amountColumn(index: number): string {
  return lettersOf(firstAmount + index);
}

const total = (index: number) => addressOf(componentRows.total - 1, firstAmount + index);

/** Flow at 50 Pa of all known components, a cell a variant. */
export const componentTotals = onSheet(sheets.components, `${total(0)}:${total(variantCount - 1)}`);
