import type { Recipe } from "./blocks/book";
import { finalTest } from "./final-test";

/** Every sample workbook, in the order in which a firm meets them. */
export const recipes: readonly Recipe[] = [finalTest];
