import { readFileSync } from "node:fs";
import { bake } from "../../sample-workbooks/blocks/book";
import { fill } from "../../sample-workbooks/blocks/fill";
import { finalTest } from "../../sample-workbooks/final-test";

/** The workbook as it lies in the project. */
export const stored = new Uint8Array(readFileSync(new URL("../../sample-workbooks/final-test.xlsx", import.meta.url)));

/** The workbook made anew from its recipe. */
export async function madeAnew(): Promise<Uint8Array> {
  return fill(await bake(finalTest));
}
