import { expect, it } from "vitest";
import { readSheetLooks } from "../../../src/workbook/file/appearance/sheet-appearance";
import { openWorkbook } from "../../../src/workbook/index";
import { stored } from "../../samples/workbook";
import { slow } from "../../time-outs";

it("the looks read along with the cells are those of a second pass", { timeout: slow }, () => {
  const opened = openWorkbook(stored, { withLooks: true });
  const later = readSheetLooks(openWorkbook(stored));
  expect(opened.looks).toHaveLength(later.length);
  for (const [index, { cells, name }] of opened.book.sheets.entries()) {
    const [one, other] = [opened.looks?.[index], later[index]];
    expect({ ...one, styleOf: undefined }, name).toEqual({ ...other, styleOf: undefined });
    for (const { row, column } of cells.values())
      expect(one?.styleOf(row, column)).toEqual(other?.styleOf(row, column));
  }
});
