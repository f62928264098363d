import { gableHouse } from "../envelope-by-hand";
import { sample, type Typed } from "../sample";

export const { typed, typedCells } = sample("envelope-what-if.xlsx");

export const asStored = typed();

/** Rows of the sheet Variants: outline from 9 on, what the limit counts from 22, what is allowed from 35. */
export const allowed = (test: Typed, variant: number, column: string) => test.cell(`Variants!${column}${35 + variant}`);

export const q50 = (test: Typed, variant: number) => allowed(test, variant, "C") as number;

export const known = (test: Typed, variant: number) => allowed(test, variant, "L") as number;

export const drawn = gableHouse(11.2, 8.4, 5.5, 3.6);

/** Shares of the volume that inner walls and floors take are invented: 11 %. */
export const counted = 0.89;
