import { describe, expect, it } from "vitest";
import type { CellValue } from "../../../src/workbook/model";
import { value } from "./book";

const cells = { A1: 1, A2: 2, A3: 3, B1: 10, B2: 20, B3: 30, C3: 7 };
const names = [
  { name: "list", text: "Sheet1!$A$1:$A$3" },
  { name: "growing", text: "OFFSET(Sheet1!$A$1,0,0,COUNT(Sheet1!$A:$A),1)" },
  { name: "rate", text: "5" },
];

describe("INDIRECT", () => {
  // The formula stands in Z1, row 1 and column 26.
  it.each<[formula: string, expected: CellValue]>([
    ['INDIRECT("R2C2",FALSE)', 20],
    ['SUM(INDIRECT("R1C1:R3C1",0))', 6],
    ['INDIRECT("RC[-25]",FALSE)', 1],
    ['INDIRECT("R[-1]C",FALSE)', "#REF!"],
    ['SUM(INDIRECT("C1",FALSE))', 6],
    ['SUM(INDIRECT("r2",FALSE))', 22],
    ['INDIRECT("Sheet1!R3C3",FALSE)', 7],
    ["INDIRECT(\"'Sheet1'!r[2]c3\",FALSE)", 7],
    ['SUM(INDIRECT("R[1]C1:R3C[-24]",0))', 55],
    ['SUM(INDIRECT("list",FALSE))', 6],
    ['INDIRECT("A1",FALSE)', "#REF!"],
    ['INDIRECT("R2C2")', "#REF!"],
    ['INDIRECT("Absent!R1C1",FALSE)', "#REF!"],
    ['SUM(INDIRECT("list"))', 6],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula, cells, { names })).toBe(expected);
  });

  it.each<[formula: string, reason: string]>([
    ['SUM(INDIRECT("growing"))', "INDIRECT to the name growing, which is calculated"],
    ['INDIRECT("rate")', "INDIRECT to the name rate, which is calculated"],
    ["INDIRECT(\"'[other.xlsx]Sheet1'!A1\")", "INDIRECT to another workbook"],
    ['INDIRECT("[other.xlsx]Sheet1!R1C1",FALSE)', "INDIRECT to another workbook"],
    ['INDIRECT(" A1")', "INDIRECT to an address with blanks around it"],
  ])("refuses %s by name", (formula, reason) => {
    expect(value(formula, cells, { names })).toBe(`not evaluated: ${reason}`);
  });
});
