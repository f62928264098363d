import { describe, expect, it } from "vitest";
import * as functions from "../../../../src/functions/index";
import metadata from "../../../../src/functions/functions.json";
import {
  addPlainSheet,
  type CellValue,
  openWorkbook,
  registerFunctions,
  typeIntoCells,
} from "../../../../src/workbook/index";
import { sheetOf } from "../package";

const addIn = registerFunctions(functions, metadata);
const now = new Date(Date.UTC(2026, 10, 30));

function typeInto(bytes: Uint8Array, row: number, column: number, entry: CellValue) {
  const written = typeIntoCells(openWorkbook(bytes), [{ sheet: 0, row, column, entry }], { addIn, now });
  const opened = openWorkbook(written);
  const cells = [...(opened.book.sheets[0]?.cells.values() ?? [])];
  return {
    opened,
    written,
    find: (at: number, to: number) => cells.find((cell) => cell.row === at && cell.column === to),
  };
}

describe("typing into the cells of a file", () => {
  it("a formula spills, though the file had no dynamic arrays before, and a second one takes the same mark", () => {
    const { find, written, opened } = typeInto(
      sheetOf('<row r="1"><c r="A1"><v>2</v></c></row>'),
      0,
      2,
      "=SEQUENCE(A1)*10",
    );
    expect([find(0, 2)?.value, find(1, 2)?.value]).toEqual([10, 20]);
    expect(find(0, 2)?.formula).toMatchObject({ dynamic: true, array: { top: 0, left: 2, bottom: 1, right: 2 } });
    expect(opened.archive.findEntry("xl/metadata.xml")).toBeDefined();
    const again = typeInto(written, 0, 4, "=STILLAIR.METHODVERSION()");
    expect(again.find(0, 4)?.formula).toMatchObject({ text: "_xldudf_STILLAIR_METHODVERSION()", dynamic: true });
    expect(again.find(0, 4)?.value).toMatch(/^\d+\.\d+\.\d+$/);
    expect(again.find(1, 2)?.value).toBe(20);
  });

  it("a value takes the place of a formula, and what reads it is recalculated", () => {
    const { find } = typeInto(
      sheetOf('<row r="1"><c r="A1"><f>1+1</f><v>2</v></c><c r="B1"><f>A1*3</f><v>6</v></c></row>'),
      0,
      0,
      5,
    );
    expect(find(0, 0)).toMatchObject({ value: 5 });
    expect(find(0, 0)?.formula).toBeUndefined();
    expect(find(0, 1)?.value).toBe(15);
  });
});

it("a sheet that is added holds texts as texts, whatever they begin with, and its name is free", () => {
  const rows = [
    ["cell", "what"],
    ["=A1", 7],
  ];
  const first = addPlainSheet(openWorkbook(sheetOf("")), "Trace", rows);
  const second = addPlainSheet(openWorkbook(first.bytes), "trace", rows);
  expect([first.sheetName, second.sheetName]).toEqual(["Trace", "trace 2"]);
  const cells = [...(openWorkbook(second.bytes).book.sheets[2]?.cells.values() ?? [])];
  expect(cells.map(({ value, formula }) => [value, formula])).toEqual([
    ["cell", undefined],
    ["what", undefined],
    ["=A1", undefined],
    [7, undefined],
  ]);
});
