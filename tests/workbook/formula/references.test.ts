import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import type { CellValue, Table } from "../../../src/workbook/model";
import { area, arrayValue, bookOf, dynamic, evaluated, f, legacy, read, sheet, value } from "./book";

const numbers = { A1: 1, A2: 2, A3: 3, A4: 4, B1: 10, B2: 20, B3: 30, B4: 40 };

describe("references", () => {
  it("reach other sheets, with quotes and in any case", () => {
    const book = bookOf([
      sheet("Sheet1", { A1: f("'My Sheet'!B2*2"), A2: f("SUM(DATA!A:A)") }),
      sheet("My Sheet", { B2: 21 }),
      sheet("Data", { A1: 1, A9: 2 }),
    ]);
    const evaluation = evaluateBook(book);
    expect(read(book, evaluation, "A1")).toBe(42);
    expect(read(book, evaluation, "A2")).toBe(3);
  });

  it.each<[formula: string, expected: CellValue, why?: string]>([
    ["SUM(A:B)", 110],
    ["SUM(2:3)", 55],
    ["SUM((A1:A2,B4))", 43],
    ["SUM(A1:B3 A2:B4)", 55],
    ["A1:A2 B1:B2", "#NULL!"],
    ["SUM(A1:INDEX(A1:A4,3))", 6],
    ["SUM(OFFSET(A1,1,0,2,2))", 55],
    ["SUM(OFFSET(B4,0,0,-2,1))", 70],
    ['SUM(INDIRECT("B1:B"&2))', 30],
    ["ROWS(A:A)", 1_048_576],
    ['INDIRECT("unknown_name")', "#REF!"],
    ["Missing!A1", "#REF!"],
    ["unknown_name", "#NAME?"],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula, numbers)).toBe(expected);
  });

  it("are refused by name where another workbook is meant", () => {
    expect(value("[1]Sheet1!A1+1")).toBe("not evaluated: it refers to another workbook");
  });

  it("mean their own row or column in an ordinary formula", () => {
    const { at } = evaluated({
      ...numbers,
      D3: f("A1:A4*10"),
      D9: f("A1:A4*10"),
      E2: f("@A1:A4"),
      F2: f("_xlfn.SINGLE(B1:B4)"),
    });
    expect([at("D3"), at("D9"), at("E2"), at("F2")]).toEqual([30, "#VALUE!", 2, 20]);
  });

  it("move with copied formulas and are parsed once for all", () => {
    const contents = Object.fromEntries(
      Array.from({ length: 50 }, (_, row) => [`C${row + 1}`, f(`$A$1*A${row + 1}+"${0}"`)]),
    );
    expect(evaluated({ ...numbers, ...contents }).at("C3")).toBe(3);
  });

  it("do not mix up text that only looks like a moving reference", () => {
    const { at } = evaluated({ A1: f('"A1"&"B2"'), A2: f('"A2"&"B3"'), B1: f("LOG10(100)"), B2: f("LOG10(1000)") });
    expect([at("A1"), at("A2"), at("B1"), at("B2")]).toEqual(["A1B2", "A2B3", 2, 3]);
  });
});

describe("defined names", () => {
  it("belong to the workbook or to a sheet, may use each other, and move when relative", () => {
    const names = [
      { name: "rate", text: "Sheet1!$A$1" },
      { name: "rate", sheet: 1, text: "7" },
      { name: "double_rate", text: "rate*2" },
      // Stored as seen from A1: the cell to the left, over the sheet's edge.
      { name: "left_cell", text: "Sheet1!XFD1" },
      { name: "list", text: "Sheet1!$A$1:$A$3" },
      { name: "squares", text: "Sheet1!$A$1:$A$3^2" },
    ];
    const book = bookOf(
      [
        sheet("Sheet1", {
          A1: 1,
          A2: 2,
          A3: 3,
          B2: f("left_cell*100"),
          C1: f("double_rate"),
          C2: f("SUM(list)"),
          C3: f("SUM(squares)"),
        }),
        sheet("S2", { A1: f("rate"), A2: f("Sheet1!rate") }),
      ],
      { names },
    );
    const evaluation = evaluateBook(book);
    expect(["B2", "C1", "C2", "C3"].map((address) => read(book, evaluation, address))).toEqual([200, 2, 6, 14]);
    expect(read(book, evaluation, "A1", 1)).toBe(7);
    expect(read(book, evaluation, "A2", 1)).toBe(1);
  });

  it("that call themselves end with a reason", () => {
    const names = [{ name: "loop", text: "loop+1" }];
    expect(value("loop", {}, { names })).toMatch(/^not evaluated: names or functions/);
  });
});

describe("table references", () => {
  const table: Table = {
    name: "Rooms",
    sheet: 0,
    area: area("A1:C4"),
    columns: ["Room", "Area m2", "Height"],
    headerRows: 1,
    totalsRows: 1,
  };
  const contents = {
    A1: "Room",
    B1: "Area m2",
    C1: "Height",
    A2: "Hall",
    B2: 10,
    C2: 2.5,
    A3: "Bath",
    B3: 6,
    C3: 2.4,
    A4: "Total",
    B4: 16,
  };
  it.each<[formula: string, expected: CellValue, why?: string]>([
    ["SUM(Rooms[Area m2])", 16],
    ["SUM(Rooms[[Area m2]:[Height]])", 20.9],
    ["COUNTA(Rooms)", 6],
    ["Rooms[[#Totals],[Area m2]]", 16],
    ["Rooms[[#Headers],[Height]]", "Height"],
    ["ROWS(Rooms[#All])", 4],
    ["ROWS(Rooms[#Data])", 2],
    ["ROWS(Rooms[[#Data],[#Totals]])", 3],
    ["SUM(Rooms[area M2])", 16],
    ["SUM(Rooms[Nothing])", 'not evaluated: the table Rooms has no column "Nothing"'],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula, contents, { tables: [table] })).toBe(expected);
  });

  it("mean this row", () => {
    const { at } = evaluated(
      {
        ...contents,
        D3: f("Rooms[[#This Row],[Area m2]]*Rooms[[#This Row],[Height]]"),
        D9: f("Rooms[[#This Row],[Height]]"),
      },
      {},
      { tables: [table] },
    );
    expect(at("D3")).toBeCloseTo(14.4, 12);
    expect(at("D9")).toBe("#VALUE!");
  });
});

describe("arrays", () => {
  it("spill, are read by #, grow and shrink with their input", () => {
    const contents = {
      A1: 3,
      B1: dynamic("B1:B3", "_xlfn.SEQUENCE(A1)"),
      C1: f("SUM(_xlfn.ANCHORARRAY(B1))"),
      D1: f("COUNTA(B1:B9)"),
      E1: f("B5"),
    };
    expect(["B3", "C1", "D1", "E1"].map(evaluated(contents).at)).toEqual([3, 6, 3, 0]);
    const set = (count: number) => ({ set: [{ sheet: "Sheet1", row: 0, column: 0, value: count }] });
    expect(["B5", "C1", "D1", "E1"].map(evaluated(contents, set(5)).at)).toEqual([5, 15, 5, 5]);
    expect(["B2", "C1", "D1", "E1"].map(evaluated(contents, set(1)).at)).toEqual([null, 1, 1, 0]);
  });

  it("that grow with every calculation are not evaluated, nor what reads them", () => {
    const { at } = evaluated({ A1: dynamic("A1", "_xlfn.SEQUENCE(COUNT(A2:A99)+2)"), B1: f("SUM(A1:A99)") });
    expect(at("A1")).toMatch(/^not evaluated/);
    expect(at("B1")).toMatch(/^not evaluated/);
  });

  it("over more cells than are kept are not evaluated, nor what reads into them", () => {
    const { at } = evaluated({
      A1: dynamic("A1:A300000", "_xlfn.SEQUENCE(300000)"),
      B1: f("A250000"),
      B2: f("SUM(A:A)"),
    });
    expect(at("A1")).toMatch(/^not evaluated: an array formula over more cells/);
    expect(at("B1")).toMatch(/^not evaluated: an array formula over more cells/);
    expect(at("B2")).toMatch(/^not evaluated: an array formula over more cells/);
  });

  it("leave nothing behind when their formula is replaced by a value", () => {
    const contents = {
      A1: dynamic("A1:A3", "_xlfn.SEQUENCE(3)", 1),
      A2: 2,
      A3: 3,
      A4: 40,
      C1: f("SUM(A1:A5)"),
      D1: f("COUNTA(A1:A5)"),
      E1: f("_xlfn.ISFORMULA(A2)"),
    };
    const { at } = evaluated(contents, { set: [{ sheet: "Sheet1", row: 0, column: 0, value: 100 }] });
    expect(["A2", "A3", "C1", "D1", "E1"].map(at)).toEqual([null, null, 140, 2, false]);
  });

  it("make room for another array when their formula is replaced", () => {
    const contents = { B1: dynamic("B1:B3", "_xlfn.SEQUENCE(3)", 1), B2: 2, B3: 3, A2: dynamic("A2", "{5,6}") };
    expect(evaluated(contents).at("A2")).toMatch(/^not evaluated|#SPILL!/);
    const { at } = evaluated(contents, { set: [{ sheet: "Sheet1", row: 0, column: 1, value: 7 }] });
    expect(["A2", "B2", "B3"].map(at)).toEqual([5, 6, null]);
  });

  it("in braces are not changed in part", () => {
    const contents = { A1: legacy("A1:A3", "ROW(A1:A3)"), B1: legacy("B1", "SUM(A1:A3*2)"), C1: f("B1") };
    const set = (row: number, column: number) => ({ set: [{ sheet: "Sheet1", row, column, value: 7 }] });
    expect(() => evaluated(contents, set(0, 0))).toThrow("A1 is part of the array formula in A1:A3");
    expect(() => evaluated(contents, set(1, 0))).toThrow("A2 is part of the array formula in A1:A3");
    expect(evaluated(contents, set(0, 1)).at("C1")).toBe(7);
  });

  it("in braces are a formula in each of their cells; of a spill it is not certain", () => {
    const { at } = evaluated({
      A1: legacy("A1:A3", "ROW(A1:A3)"),
      B1: dynamic("B1:B3", "_xlfn.SEQUENCE(3)"),
      C1: f("_xlfn.ISFORMULA(A2)"),
      C2: f("_xlfn.ISFORMULA(B1)"),
      C3: f("_xlfn.ISFORMULA(B2)"),
      C4: f("_xlfn.ISFORMULA(D9)"),
    });
    expect(["C1", "C2", "C4"].map(at)).toEqual([true, true, false]);
    expect(at("C3")).toBe("not evaluated: ISFORMULA of a cell that a dynamic array fills");
  });

  it("that are blocked give #SPILL!", () => {
    const { at, evaluation } = evaluated({
      B1: dynamic("B1", "_xlfn.SEQUENCE(3)"),
      B3: "in the way",
      C1: f("SUM(_xlfn.ANCHORARRAY(B1))"),
    });
    expect([at("B1"), at("C1")]).toEqual(["#SPILL!", "#SPILL!"]);
    expect(evaluation.spills).toEqual([]);
  });

  it("in braces fill their range and repeat or end with #N/A", () => {
    const { at } = evaluated({ A1: 1, A2: 2, B1: { formula: "A1:A2*10", array: "B1:C3" } });
    expect(["B1", "C2", "B3"].map(at)).toEqual([10, 20, "#N/A"]);
  });

  it.each<[formula: string, expected: CellValue, why?: string]>([
    ["SUM(A1:A4*B1:B4)", 300],
    ["SUM(IF(A1:A4>2,B1:B4))", 70],
    ["SUM({1,2,3}*2)", 12],
    ["INDEX({1,2;3,4},2,1)", 3],
    ["_xlfn.LET(_xlpm.x,5,_xlpm.y,_xlpm.x*2,_xlpm.x+_xlpm.y)", 15],
    ["_xlfn.LAMBDA(_xlpm.n,_xlpm.n^2)(7)", 49],
    ["SUM(_xlfn.MAKEARRAY(2,3,_xlfn.LAMBDA(_xlpm.r,_xlpm.c,_xlpm.r*_xlpm.c)))", 18],
    ['_xlfn.LET(_xlpm.c,5,_xlpm.c&"_xlpm.c")', "5_xlpm.c"],
    ["SUM(_xlfn._xlws.FILTER(B1:B4,A1:A4>2))", 70],
    ["SUM(A1:A2+{1;2;3})", "#N/A"],
    ["SUM(_xlfn._xlws.FILTER({1,2,4},{1,0,1}))", 5],
    ["COUNTA(_xlfn._xlws.FILTER(A1:B1,{0,1}))", 1],
    ["COUNTA(_xlfn._xlws.FILTER(A1:A4,TRUE))", 4],
    [
      "ROWS(_xlfn.UNIQUE(IF({1;2}=1,0.1+0.2,0.3)))",
      "not evaluated: two numbers in UNIQUE that differ only by rounding error",
    ],
  ])("=%s is %s", (formula, expected) => {
    expect(arrayValue(formula, numbers)).toBe(expected);
  });

  it("keep whole columns within what is used, and refuse where the rest would count", () => {
    expect(value("SUMPRODUCT((A:A>2)*B:B)", numbers)).toBe(70);
    expect(value('SUMPRODUCT(--(A:A=""))', numbers)).toMatch(/^not evaluated: a whole column/);
    expect(value('COUNTIF(A:A,"<>")', numbers)).toBe(4);
    expect(value("COUNTBLANK(A:A)", numbers)).toBe(1_048_572);
  });
});
