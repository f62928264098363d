import { describe, expect, it } from "vitest";
import type { CellValue } from "../../../src/workbook/model";
import { arrayValue, evaluated, f, legacy, value } from "./book";

/** Microsoft's own examples in its help for the functions, and one trap each. */
describe("dates and working days", () => {
  it.each<[formula: string, expected: CellValue]>([
    ["NETWORKDAYS(DATE(2012,10,1),DATE(2013,3,1))", 110],
    ["NETWORKDAYS(DATE(2012,10,1),DATE(2013,3,1),DATE(2012,11,22))", 109],
    ["NETWORKDAYS(DATE(2013,3,1),DATE(2012,10,1))", -110],
    ["WORKDAY(DATE(2008,10,1),151)", 39_933],
    ["WORKDAY(DATE(2024,3,4),-1)", 45_352],
    ["WEEKNUM(DATE(2012,3,9))", 10],
    ["WEEKNUM(DATE(2012,3,9),2)", 11],
    ["_xlfn.ISOWEEKNUM(DATE(2012,3,9))", 10],
    ["WEEKNUM(DATE(2021,1,3),21)", 53],
    ['DATEDIF(DATE(2001,1,1),DATE(2003,1,1),"Y")', 2],
    ['DATEDIF(DATE(2001,6,1),DATE(2002,8,15),"D")', 440],
    ['DATEDIF(DATE(2024,1,31),DATE(2024,2,29),"m")', 0],
    [
      'DATEDIF(DATE(2001,6,1),DATE(2002,8,15),"YD")',
      'not evaluated: DATEDIF with "YD", of which Microsoft itself warns',
    ],
    ["WEEKNUM(A1)", "not evaluated: WEEKNUM of a date before 1901 or of a blank"],
    ["NETWORKDAYS(45000,TRUE)", "#VALUE!"],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula)).toBe(expected);
  });

  it("leave holidays in a range out", () => {
    const holidays = { A1: 41235, A2: 41247, A3: 41295 };
    expect(value("NETWORKDAYS(DATE(2012,10,1),DATE(2013,3,1),A1:A9)", holidays)).toBe(107);
    expect(value("NETWORKDAYS(DATE(2012,10,1),DATE(2013,3,1),A1:A9)", { A1: "none" })).toMatch(/^not evaluated/);
  });
});

describe("products, multiples and counts", () => {
  it.each<[formula: string, expected: CellValue]>([
    ["SUMXMY2({2,3,9,1,8,7,5},{6,5,11,7,5,4,4})", 79],
    ["SUMX2MY2({2,3,9,1,8,7,5},{6,5,11,7,5,4,4})", -55],
    ["SUMX2PY2({2,3,9,1,8,7,5},{6,5,11,7,5,4,4})", 521],
    ["SUMXMY2({1,2},{1,2,3})", "#N/A"],
    ["INDEX(MMULT({1,3;7,2},{2,0;0,2}),2,1)", 14],
    ["MMULT({1,2},{1,2})", "#VALUE!"],
    ["_xlfn.CEILING.MATH(24.3,5)", 25],
    ["_xlfn.CEILING.MATH(-8.1,2)", -8],
    ["_xlfn.CEILING.MATH(-5.5,2,-1)", -6],
    ["_xlfn.FLOOR.MATH(24.3,5)", 20],
    ["_xlfn.FLOOR.MATH(-8.1,2)", -10],
    ["_xlfn.FLOOR.MATH(-5.5,2,-1)", -4],
    ["_xlfn.CEILING.MATH(6.7,,1)", 7],
    ["FACT(5)", 120],
    ["FACT(171)", "#NUM!"],
    ["COMBIN(8,2)", 28],
    ["COMBIN(2,8)", "#NUM!"],
    ["MODE(LN({1,2,2,3}))", Math.log(2)],
    ["LARGE({5},1.5)", "not evaluated: a rank that is no whole number"],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula)).toBe(expected);
  });

  it("take ranks of equals in the mean", () => {
    const cells = { A1: 89, A2: 88, A3: 92, A4: 101, A5: 94, A6: 97, A7: 95, B1: 1, B2: 1, B3: 2 };
    expect(value("_xlfn.RANK.AVG(94,A1:A7)", cells)).toBe(4);
    expect(value("_xlfn.RANK.AVG(1,B1:B3)", cells)).toBe(2.5);
  });

  it("give CONFIDENCE and ERF", () => {
    expect(value("CONFIDENCE(0.05,2.5,50)")).toBeCloseTo(0.692952, 6);
    expect(value("ERF(0.745)")).toBeCloseTo(0.70792892, 8);
    expect(value("ERF(0.5,1)")).toBeCloseTo(0.84270079 - 0.52049988, 7);
  });
});

describe("parts of texts", () => {
  it.each<[formula: string, expected: CellValue]>([
    ['PROPER("this is a TITLE")', "This Is A Title"],
    ['PROPER("2-way street, 76BudGet")', "2-Way Street, 76Budget"],
    ["FIXED(1234.567,1)", "1,234.6"],
    ["FIXED(1234.567,-1)", "1,230"],
    ["FIXED(-1234.567,-1,TRUE)", "-1230"],
    ["FIXED(44.332)", "44.33"],
    ["FIXED(1234567.5,9)", "not evaluated: FIXED with more digits than are certain"],
    ['_xlfn.NUMBERVALUE("2.500,27",",",".")', 2500.27],
    ['_xlfn.NUMBERVALUE(" 9 %% ",".",",")', 0.0009],
    ['_xlfn.NUMBERVALUE("1,2,3",",",".")', "#VALUE!"],
    ['_xlfn.NUMBERVALUE("2.5")', "not evaluated: NUMBERVALUE without separators depends on the locale"],
    ['_xlfn.TEXTBEFORE("a-b-c","-")', "a"],
    ['_xlfn.TEXTBEFORE("a-b-c","-",-1)', "a-b"],
    ['_xlfn.TEXTAFTER("a-b-c","-",2)', "c"],
    ['_xlfn.TEXTAFTER("axbXc","X",1,1)', "bXc"],
    ['_xlfn.TEXTAFTER("abc","-")', "#N/A"],
    ['_xlfn.TEXTAFTER("abc","-",1,0,0,"none")', "none"],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula)).toBe(expected);
  });

  it("cut a text into columns and rows", () => {
    expect(arrayValue('INDEX(_xlfn.TEXTSPLIT("1,2,3;4,5",",",";"),2,2)')).toBe("5");
    expect(arrayValue('INDEX(_xlfn.TEXTSPLIT("1,2,3;4,5",",",";"),2,3)')).toBe("#N/A");
    expect(arrayValue('INDEX(_xlfn.TEXTSPLIT("1,,3",",",,TRUE),1,2)')).toBe("3");
    expect(arrayValue('_xlfn.TEXTSPLIT("a b",{" ",","})')).toMatch(/^not evaluated: TEXTSPLIT with several delimiters/);
  });

  it("choose for each element of an array, in array formulas alone", () => {
    const cells = { A1: 3, A2: 1, A3: 2 };
    const choice = '_xlfn.TEXTJOIN(",",FALSE,_xlfn.IFS(A1:A3>2,"high",A1:A3>1,"mid",TRUE,"low"))';
    expect(arrayValue(choice, cells)).toBe("high,low,mid");
    // In an ordinary cell the ranges mean the cell in the formula's own row, the first.
    expect(value(choice, cells)).toBe("high");
    expect(arrayValue('_xlfn.TEXTJOIN(",",FALSE,_xlfn.SWITCH(A1:A3,1,"one",2,"two","more"))', cells)).toBe(
      "more,one,two",
    );
    expect(arrayValue('_xlfn.TEXTJOIN(",",FALSE,_xlfn.IFS(A1:A3>2,1))', cells)).toBe("#N/A");
  });

  it("put the values of a block in a line", () => {
    const cells = { A1: 1, B1: 2, A2: 3 };
    expect(arrayValue('_xlfn.TEXTJOIN(",",FALSE,_xlfn.TOCOL(A1:B2,1))', cells)).toBe("1,2,3");
    expect(arrayValue('_xlfn.TEXTJOIN(",",FALSE,_xlfn.TOROW(A1:B2,1,TRUE))', cells)).toBe("1,3,2");
  });
});

describe("formulas and sheets", () => {
  it("are shown and counted", () => {
    const { at } = evaluated({
      A1: f("SUM(B1:B3)*2"),
      A2: legacy("A2", "SUM(B1:B3*2)"),
      A3: f("B1:B3*2"),
      C1: f("_xlfn.FORMULATEXT(A1)"),
      C2: f("_xlfn.FORMULATEXT(A2)"),
      C3: f("_xlfn.FORMULATEXT(A3)"),
      C4: f("_xlfn.FORMULATEXT(B1)"),
      C5: f("_xlfn.SHEETS()+_xlfn.SHEET()"),
      C6: f("AREAS((A1:A2,B1))"),
    });
    expect(["C1", "C2", "C4", "C5", "C6"].map(at)).toEqual(["=SUM(B1:B3)*2", "{=SUM(B1:B3*2)}", "#N/A", 2, 2]);
    expect(at("C3")).toBe("not evaluated: FORMULATEXT of a formula that Excel may show with an @");
  });
});
