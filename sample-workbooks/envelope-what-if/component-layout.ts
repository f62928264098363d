import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { sheets, variantCount } from "./layout";

/** Rows of the sheet Components: joints first, whose lengths follow from the outline; then what is counted on the drawings. */
export const componentRows = { first: 9, typed: 12, last: 23, total: 24, outline: 30, flows: 37 } as const;

/** The three sizes with which an amount may grow, in the rows in which the sheet holds the ones that were counted for. */
export const growthSizes = ["floor area", "perimeter", "envelope area"] as const;

const { first, last } = componentRows;
const counted = componentRows.outline + 1;
const state = counted + growthSizes.length;

/** Sizes that the amounts were counted for, and whether they still fit the outline. */
export const countedRows = { first: counted, last: state - 1, state, note: state + 1 } as const;

/** The column in which a variant's amounts are typed, by its place among the variants. */
export function amountColumn(index: number): string {
  return lettersOf(columnOf("F") + index);
}

/** The column in which the amounts stand that the variant is reckoned with. */
export function reckonedColumn(index: number): string {
  return lettersOf(columnOf("S") + index);
}

/** What the amount of a component grows with. */
export const growsWith = "N";

/** Leakage, pressure and exponent of a component as the add-in takes them. */
export const handed = ["P", "Q", "R"] as const;

/** All variants in one row of amounts, typed or reckoned with. */
export function acrossVariants(column: (index: number) => string, row: number): string {
  return `$${column(0)}$${row}:$${column(variantCount - 1)}$${row}`;
}

export const ofComponents = (column: string) => `$${column}$${first}:$${column}$${last}`;

/** "fit", "grown", "look again" or "unknown", a cell a variant. */
export const amountStates = onSheet(sheets.components, acrossVariants(amountColumn, countedRows.state));
