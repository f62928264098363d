import { expect } from "vitest";
import { buildCellKey, type Area, type Book, type CellValue, type Evaluation } from "../../src/workbook/index";
import { boxOf } from "../../sample-workbooks/blocks/address";

/** A defined name's range, with the index of its sheet. */
export function namedCell(book: Book, name: string): Area & { readonly sheet: number } {
  const text = book.names.find((one) => one.name === name)?.text ?? "";
  const [sheet = "", reference = ""] = text.split("!");
  return { sheet: book.sheets.findIndex((one) => one.name === sheet.replaceAll("'", "")), ...boxOf(reference) };
}

/** What a cell shows after evaluation: computed, or as it is stored. */
export function cellAt(book: Book, evaluation: Evaluation, sheet: number, row: number, column: number): CellValue {
  const outcome = evaluation.outcome(sheet, row, column);
  if (!outcome) return book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;
  if (!outcome.evaluated) throw new Error(`not evaluated: ${outcome.reason}`);
  return outcome.value;
}

/** Double arithmetic done in another order, with squares and logarithms in between, keeps at least nine digits. */
const tolerance = 1e-9;

expect.extend({
  toBeCloseToRelative(received: unknown, wanted: number) {
    const pass = typeof received === "number" && Math.abs(received - wanted) <= tolerance * Math.abs(wanted);
    return { pass, message: () => `${String(received)} against ${wanted}, relative tolerance ${tolerance}` };
  },
});

declare module "vitest" {
  interface Matchers<T> {
    /** Within 1e-9 of the wanted number, relative to it. */
    toBeCloseToRelative(wanted: number): T;
  }
}
