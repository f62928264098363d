import { readFileSync } from "node:fs";

/** The workbook of the final test as it lies in the project. */
export const stored = new Uint8Array(readFileSync(new URL("../../sample-workbooks/final-test.xlsx", import.meta.url)));
