import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import type { CellValue } from "../../../src/workbook/model";
import { arrayValue, bookOf, f, read, sheet, value } from "./book";

const list = { A1: "x", A2: "y", A3: "x", A4: "x", B1: 1, B2: 2, B3: 4, B4: 8 };

describe("OFFSET and INDIRECT for several places at once", () => {
  it("let SUBTOTAL see the rows that a filter shows", () => {
    const cells = {
      ...list,
      D1: f('SUMPRODUCT(SUBTOTAL(103,OFFSET(A1,ROW(A1:A4)-ROW(A1),0)),--(A1:A4="x"))'),
      D2: f('SUMPRODUCT(SUBTOTAL(9,OFFSET(B1,ROW(B1:B4)-ROW(B1),0))*(A1:A4="x"))'),
    };
    const book = bookOf([sheet("Sheet1", cells, { hiddenRows: new Set([2]), filteredRows: new Set([2]) })]);
    const evaluation = evaluateBook(book);
    expect([read(book, evaluation, "D1"), read(book, evaluation, "D2")]).toEqual([2, 9]);
  });

  it("let SUMIF and COUNTIF look through several sheets", () => {
    const total = 'SUMPRODUCT(SUMIF(INDIRECT("\'"&A1:A2&"\'!A1:A3"),"x",INDIRECT("\'"&A1:A2&"\'!B1:B3")))';
    const count = 'SUMPRODUCT(COUNTIF(INDIRECT("\'"&A1:A2&"\'!A1:A3"),"x"))';
    const book = bookOf([
      sheet("Sheet1", { A1: "Flat 1", A2: "Flat 2", D1: f(total), D2: f(count) }),
      sheet("Flat 1", { A1: "x", A2: "y", A3: "x", B1: 1, B2: 2, B3: 4 }),
      sheet("Flat 2", { A1: "y", A2: "x", B1: 8, B2: 16 }),
    ]);
    const evaluation = evaluateBook(book);
    expect([read(book, evaluation, "D1"), read(book, evaluation, "D2")]).toEqual([21, 3]);
  });

  it.each<[formula: string, expected: CellValue]>([
    // N looks at the first cell of each; SUM alone would see the first reference only, as has long been known of Excel.
    ["SUM(N(OFFSET(B1,{0;2},0)))", 5],
    ["SUM(OFFSET(B1,{0;2},0))", "not evaluated: OFFSET with arrays of arguments"],
    ['SUM(INDIRECT({"B1","B3"}))', "not evaluated: INDIRECT with arrays of arguments"],
    ['SUM(SUMIF(OFFSET(A1:A2,{0;2},0),"x",B1:B2))', 4],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula, list)).toBe(expected);
    expect(arrayValue(formula, list)).toBe(expected);
  });
});

describe("functions that take no range", () => {
  it("are not called for each of its cells", () => {
    const cells = { A1: 45000, A2: 45031 };
    expect(arrayValue("SUM(EOMONTH(A1:A2,0))", cells)).toBe(
      "not evaluated: EOMONTH of a range, which it does not take",
    );
    expect(value("ISODD(A1:A2)", cells)).toBe("not evaluated: ISODD of a range, which it does not take");
    expect(arrayValue("SUM(EOMONTH(+A1:A2,0))", cells)).toBe(45016 + 45046);
    expect(value("EOMONTH(A1:A1,0)", cells)).toBe(45016);
  });

  it("and lookups in calculated ranges are refused where array formulas and ordinary ones may differ", () => {
    expect(value('VLOOKUP("x1",A1:A4&B1:B4,1,FALSE)', list)).toMatch(/^not evaluated: a calculation with a range/);
    expect(arrayValue('VLOOKUP("x1",A1:A4&B1:B4,1,FALSE)', list)).toBe("x1");
    expect(value("ROWS(B1:B4*2)", list)).toMatch(/^not evaluated: a calculation with a range/);
  });
});
