import { expect, it } from "vitest";
import { measureExtent } from "../../../src/workbook/page/sheet-view";
import { sheet } from "../formula/book";

it("a sheet with more computed cells than a call takes arguments is shown as far as it is computed", () => {
  const looks = { lastStyledRow: 900_000, lastStyledColumn: 200, drawings: [] } as unknown as Parameters<
    typeof measureExtent
  >[1];
  const computed = Array.from({ length: 300_000 }, (_, row) => ({ row: row % 1500, column: row % 7 }));
  const { rows, columns, isCut } = measureExtent(sheet("Sheet1", { A1: 1 }), looks, computed);
  expect([rows.length, columns.length, isCut]).toEqual([1500, 7, false]);
});
