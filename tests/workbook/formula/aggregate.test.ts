import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import type { CellValue } from "../../../src/workbook/model";
import { arrayValue, bookOf, evaluated, f, read, sheet, value } from "./book";

const list = { A1: 10, A2: 40, A3: 20, A4: 30, A5: "n/a", B1: "x", B2: "y", B3: "x", B4: "x", B5: "x", C1: 2 };

describe("AGGREGATE with a calculated array", () => {
  it.each<[formula: string, expected: CellValue]>([
    ['AGGREGATE(14,6,A1:A5/(B1:B5="x"),1)', 30],
    ['_xlfn.AGGREGATE(15,6,A1:A4/(B1:B4="x"),2)', 20],
    ['AGGREGATE(15,6,ROW(A1:A4)/(B1:B4="x"),2)', 3],
    ['INDEX(A:A,AGGREGATE(15,6,ROW(A1:A4)/(B1:B4="x"),ROWS(Y$1:Y3)))', 30],
    ['INDEX(A1:A4,AGGREGATE(15,6,(ROW(A1:A4)-ROW(A1)+1)/(B1:B4="y"),1))', 40],
    ['IFERROR(INDEX(A1:A4,AGGREGATE(15,6,(ROW(A1:A4)-ROW(A1)+1)/(B1:B4="y"),2)),"")', ""],
    ['AGGREGATE(16,6,A1:A4/(B1:B4="x"),0.5)', 20],
    ["AGGREGATE(14,4,A1:A4*2,C1)", 60],
    ['AGGREGATE(14,6,A:A/(B:B="x"),1)', 30],
    ['AGGREGATE(14,4,A1:A4/(B1:B4="x"),1)', "#DIV/0!"],
    ["AGGREGATE(14,6,A1:A4/0,1)", "#NUM!"],
    ["AGGREGATE(14,4,A1:A4>15,1)", "#NUM!"],
  ])("=%s is %s in an ordinary cell", (formula, expected) => {
    expect(value(formula, list)).toBe(expected);
  });

  it("takes several places at once", () => {
    expect(value("SUM(AGGREGATE(14,6,A1:A5,{1,2,3}))", list)).toBe(90);
    expect(arrayValue("SUM(AGGREGATE(15,6,A1:A5,ROW(1:2)))", list)).toBe(30);
    expect(value("SUM(AGGREGATE(15,6,A1:A5,ABS({1,2})))", list)).toBe(30);
  });

  it("leaves no hidden rows out of it, which only a range has", () => {
    const cells = { ...list, D1: f("AGGREGATE(14,7,A1:A4,1)"), D3: f("AGGREGATE(14,7,A1:A4*1,1)") };
    const book = bookOf([sheet("Sheet1", cells, { hiddenRows: new Set([1]) })]);
    const evaluation = evaluateBook(book);
    expect([read(book, evaluation, "D1"), read(book, evaluation, "D3")]).toEqual([30, 40]);
  });

  it.each<[formula: string, reason: string]>([
    ['AGGREGATE(9,6,A1:A4/(B1:B4="x"))', "AGGREGATE of an array"],
    ["AGGREGATE(14,4,A:A*1,1)", "a whole column calculated inside AGGREGATE"],
    ['AGGREGATE(14,6,IF(B1:B4="x",A1:A4),1)', "IF over a range in a cell that is no array formula"],
    ["AGGREGATE(14,6,A1:A4)", "AGGREGATE number 14 without one further number"],
    ["AGGREGATE(14,6,A1:A4,B1)", "AGGREGATE number 14 without a number"],
  ])("refuses %s by name", (formula, reason) => {
    expect(value(formula, list)).toBe(`not evaluated: ${reason}`);
  });

  it("counts what is met most often, and does not choose among equals", () => {
    const { at } = evaluated({
      A1: 5,
      A2: 7,
      A3: 7,
      A4: 5,
      B1: f("AGGREGATE(13,6,A1:A3)"),
      B2: f("MODE(A1:A4)"),
      B3: f("MODE(1,2)"),
    });
    expect([at("B1"), at("B2"), at("B3")]).toEqual([7, "not evaluated: several numbers are met equally often", "#N/A"]);
  });
});
