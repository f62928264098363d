import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { roundAsDisplayed } from "../../../src/workbook/formula/evaluation-pass";
import { buildCellKey, type CellValue } from "../../../src/workbook/model";
import { bookOf, dynamic, f, read, sheet } from "./book";

describe("a workbook that calculates with the precision as displayed", () => {
  it("goes on with what its cells show", () => {
    const own = sheet("Sheet1", { A1: f("2/3"), A2: f("A1*3"), A3: f("2/3"), A4: dynamic("A4:A5", "{1;2}") });
    const first = own.cells.get(buildCellKey(0, 0));
    if (first) own.cells.set(buildCellKey(0, 0), { ...first, format: "0.00" });
    const book = { ...bookOf([own]), precisionAsDisplayed: true };
    const evaluation = evaluateBook(book);
    expect([read(book, evaluation, "A1"), read(book, evaluation, "A2")]).toEqual([0.67, 0.67 * 3]);
    expect(read(book, evaluation, "A3")).toBe(2 / 3);
    expect(read(book, evaluation, "A4")).toMatch(/^not evaluated: an array over several cells/);
  });

  it.each<[value: CellValue, format: string, kept: CellValue]>([
    [0.12345, "0.0%", 0.123],
    [1234.567, "#,##0.0", 1234.6],
    [-1.25, "0.0;-0.0", -1.3],
    [1.25, '0.0" m³/h"', 1.3],
    [1.25, "General", 1.25],
    ["text", "0", "text"],
  ])("%s under %s is kept as %s", (value, format, kept) => {
    expect(roundAsDisplayed(value, format)).toBe(kept);
  });

  it.each(["0.00E+00", "yyyy-mm-dd", "# ?/?", "0.0,", "0.0;-0", "[>1]0.0;0.00"])("refuses the format %s", (format) => {
    expect(() => roundAsDisplayed(1.5, format)).toThrow("precision as displayed");
  });
});
