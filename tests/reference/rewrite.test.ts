import { unzipSync } from "fflate";
import { expect, it } from "vitest";
import { buildCellKey, openWorkbook, writeBack, type CellPatch, type CellValue } from "../../src/workbook/index";
import { folder, workbooksIn } from "./workbooks";

it.each(workbooksIn(folder))("%s opens and survives a copy", (_, bytes) => {
  const opened = openWorkbook(bytes);
  expect(Buffer.compare(writeBack(opened, []), bytes)).toBe(0);

  const patches = opened.book.sheets.flatMap((sheet, index) => {
    const cells = [...sheet.cells.values()].filter((_, place) => place % 3 === 0);
    return cells.map(({ row, column, value }): CellPatch => ({ sheet: index, row, column, value: another(value) }));
  });
  // writeBack reads the copy again: every patched cell as asked, every other cell and formula as before.
  const copy = writeBack(opened, patches);
  const [before, after] = [unzipSync(bytes), unzipSync(copy)];
  expect(Object.keys(after)).toEqual(Object.keys(before));
  const changed = Object.keys(before).filter(
    (part) => Buffer.compare(before[part] ?? bytes, after[part] ?? copy) !== 0,
  );
  expect(changed.every((part) => opened.sheetParts.includes(part))).toBe(true);

  // The stored values put back: the same cells as in the original file.
  const restored = patches.map((patch) => ({
    ...patch,
    value: opened.book.sheets[patch.sheet]?.cells.get(buildCellKey(patch.row, patch.column))?.value ?? null,
  }));
  const again = openWorkbook(writeBack(openWorkbook(copy), restored));
  expect(again.book).toEqual(opened.book);
});

function another(value: CellValue): CellValue {
  return typeof value === "number" ? `was ${value}` : typeof value === "string" ? value.length : false;
}
