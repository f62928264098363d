import { describe, expect, it } from "vitest";
import { compareWithStored } from "../../../src/workbook/formula/evaluation";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { type CellValue, ErrorValue, type Table } from "../../../src/workbook/model";
import { area, arrayValue, bookOf, type Content, dynamic, evaluated, f, legacy, read, sheet, value } from "./book";

// Each case is a cell, or the pattern of one, whose value Excel stored in a published workbook; the file is named where it is known.

const refused = /^not evaluated: /;

type Cells = Readonly<Record<string, Content>>;

describe("values that Excel stored", () => {
  it.each<[formula: string, cells: Cells, expected: CellValue]>([
    // A blank looked up is 0 to the older functions: formulas test.xlsx, sheet LOOKUP.
    ["MATCH(A9,{-1.1,2.1,3.1,4.1})", {}, 1],
    ["MATCH(A9,{4.1,3.1,2.1,1.1},-1)", {}, 4],
    ["HLOOKUP(A9,{-1.1,2.1,3.1,4.1;5,6,7,8},2,-2)", {}, 5],
    ["VLOOKUP(A9,{-1.1,5;2.1,6;3.1,7;4.1,8},2,-2)", {}, 5],
    ["LOOKUP(A9,{-1.1,2.1,3.1},{5,6,7})", {}, 5],
    // … and never a blank.
    ["MATCH(A9,A1:A3,0)", { A1: 5, A3: 0 }, 3],
    ["MATCH(A9,A1:A3,0)", { A1: 5 }, "#N/A"],
    // XLOOKUP.xlsx, sheet ReturnSmaller.
    ["_xlfn.XLOOKUP(FALSE,A1:A7,B1:B7,,-1)", xlookupList(), "g"],
    ['_xlfn.XLOOKUP("a",A1:A5,B1:B5,,-1)', { A1: 2, A2: 5, A3: 4, A4: 6, A5: 3, B4: "e" }, "e"],
    ['_xlfn.XMATCH("a",{1,2},2,2)', {}, "#VALUE!"],
    // TEXTBEFORE_TEXTAFTER.xlsx, TEXTSPLIT.xlsx.
    ['_xlfn.TEXTAFTER(TRUE,"r",1,0,0,A9)', {}, ""],
    ['_xlfn.TEXTBEFORE("a-b-c-d","-",-1.6)', {}, "a-b"],
    ["_xlfn.TEXTSPLIT(A1,)", { A1: "a b" }, "#VALUE!"],
    // logical.xlsx, sheet Switch.
    ['_xlfn.SWITCH(FALSE,A9,"match")', {}, "#N/A"],
    ['_xlfn.SWITCH(A9,"","match")', {}, "#N/A"],
    // TextFormatTests.xlsx.
    ['TEXT(TRUE,";;;\\@@\\@")', {}, "@TRUE@"],
    ['TEXT("wall","0;0;0;@"" m""")', {}, "wall m"],
    // tables.xlsx.
    ['_xlfn.SHEET("sheet1")', {}, 1],
    ["_xlfn.SHEET(1)", {}, "#N/A"],
    ['_xlfn.SHEET("")', {}, "#N/A"],
    // ISOMITTED.xlsx.
    ["_xlfn.LAMBDA(_xlpm.a,_xlop.b,IF(_xlfn.ISOMITTED(_xlpm.b),_xlpm.a/2,_xlpm.a*_xlpm.b))(12)", {}, 6],
    ["_xlfn.LAMBDA(_xlpm.a,_xlop.r,IF(_xlfn.ISOMITTED(_xlpm.r),_xlpm.a/2,_xlpm.a*_xlpm.r))(12,3)", {}, 36],
    // Arguments of the former analysis add-in.
    ["MROUND(TRUE,2)", {}, "#VALUE!"],
    ["MROUND(,A9)", {}, "#N/A"],
    ["MROUND(TRUE,0)", {}, "#VALUE!"],
    ["ERFC(TRUE)", {}, "#VALUE!"],
    ["_xlfn.ERF.PRECISE(TRUE)", {}, "#VALUE!"],
    ["_xlfn.ERFC.PRECISE(TRUE)", {}, "#VALUE!"],
    ['CONVERT(TRUE,"C","F")', {}, "#VALUE!"],
    ["SUMPRODUCT(A1:A1,B1:B1)", { A1: "4", B1: 2 }, "#VALUE!"],
    ['ADDRESS(2,3,3,TRUE,"[Book1]Sheet1")', {}, "[Book1]Sheet1!$C2"],
    ["DATE(1900,0,31)", {}, "#NUM!"],
    ["EOMONTH(16.67,1)", {}, 59],
    ["QUARTILE({1,2,3},-0.1)", {}, "#NUM!"],
    ['_xlfn.NUMBERVALUE("1",A9)', {}, "#VALUE!"],
    ['SUM(INDIRECT("A01:A003"))', { A1: 1, A2: 2, A3: 4 }, 7],
    ["_xlfn.CHOOSECOLS({7,8},TRUE)", {}, 7],
    // Not found comes before a column that does not exist.
    ["VLOOKUP(8,A1:A3,0,FALSE)", { A1: 1 }, "#N/A"],
    ["VLOOKUP(1,A1:A3,0,FALSE)", { A1: 1 }, "#VALUE!"],
    ["VLOOKUP(B1,B1:C1,3)", { B1: 1 }, "#REF!"],
    ['HLOOKUP(A1,"Nothing",1)', { A1: 3 }, "#VALUE!"],
    // A misspelt name is told as one.
    ["SLOPE(A1:A3,no_such_name)", { A1: 1, A2: 2, A3: 3 }, "#NAME?"],
    ["INDEX(LINEST(A1:A3),1)", { A1: 1, A2: f("NA()"), A3: 3 }, "#VALUE!"],
    ["_xlfn.T.DIST(0,,)", {}, "#DIV/0!"],
  ])("=%s with %j is %s", (formula, cells, expected) => {
    expect(value(formula, cells)).toBe(expected);
  });

  it("are those of arrays and of formulas that spill", () => {
    expect(arrayValue("INDEX(_xlfn.SEQUENCE(,12,,2.5),3)")).toBe(6);
    // spill_operator.xlsx: # on an array in braces.
    expect(evaluated({ C2: legacy("C2:C5", "123"), G2: f("SUM(_xlfn.ANCHORARRAY(C2))") }).at("G2")).toBe(492);
    // ExamplePolarisMaxDaily.xlsx: MAP hands on references, of which MAX leaves texts out.
    expect(
      arrayValue("_xlfn.MAP(A1,A2,_xlfn.LAMBDA(_xlpm.x,_xlpm.y,MAX(_xlpm.x,_xlpm.y)))", { A1: "head", A2: 5 }),
    ).toBe(5);
    expect(
      arrayValue("INDEX(_xlfn.BYROW(A1:B2,_xlfn.LAMBDA(_xlpm.x,MAX(_xlpm.x))),2)", { A1: 9, A2: "x", B2: 5 }),
    ).toBe(5);
    expect(
      arrayValue("_xlfn.REDUCE(0,A1:A2,_xlfn.LAMBDA(_xlpm.x,_xlpm.y,MAX(_xlpm.x,_xlpm.y)))", { A1: "head", A2: 5 }),
    ).toBe(5);
    const overflow = evaluated({ A1: legacy("A1:B2", "MMULT({1E+200,2;3,4},{1E+200,2;3,4})") });
    expect(["A1", "B2"].map(overflow.at)).toEqual(["#NUM!", "#NUM!"]);
  });

  it("take [#This Row] of a table on another sheet by the row's number", () => {
    const table: Table = {
      name: "Rooms",
      sheet: 1,
      area: area("A1:B4"),
      columns: ["Room", "Volume"],
      headerRows: 1,
      totalsRows: 0,
    };
    const book = bookOf(
      [
        sheet("Sheet1", { C3: f("Rooms[[#This Row],[Volume]]*2"), C9: f("Rooms[[#This Row],[Volume]]") }),
        sheet("Data", { B3: 21 }),
      ],
      { tables: [table] },
    );
    const evaluation = evaluateBook(book);
    expect(["C3", "C9"].map((address) => read(book, evaluation, address))).toEqual([42, "#VALUE!"]);
  });

  it("write dates of a workbook that counts from 1904", () => {
    expect(value('TEXT(A1,"YYYY-MM-DD")', { A1: 111 }, { date1904: true })).toBe("1904-04-21");
  });
});

describe("refused by name, since what Excel makes of it is not known", () => {
  it.each<[formula: string, cells: Cells, reason: string]>([
    ["_xlfn.XMATCH(A9,{1,2},-1)", {}, "a blank looked up by XLOOKUP or XMATCH"],
    ["_xlfn.XLOOKUP(A9,A1:A3,B1:B3)", { A1: 5 }, "a blank looked up by XLOOKUP or XMATCH"],
    ['_xlfn.TEXTAFTER("del","deli")', {}, "TEXTAFTER with a delimiter longer than the text"],
    ["_xlfn.SWITCH(A9,0,1)", {}, "a blank that SWITCH compares with a blank or a 0"],
    ['_FV(A1,"High")', { A1: new ErrorValue("#VALUE!") }, "a property of a linked data type"],
    ["MODE(2,2,A9)", {}, "MODE of a single value that is no number"],
    ['_xlfn.MODE.SNGL(2,2,"")', {}, "MODE.SNGL of a single value that is no number"],
    ['AVERAGEA({1;2;4;"Text";TRUE})', {}, "a text or a truth value in an array given to AVERAGEA"],
    ["_xlfn.ISOWEEKNUM(TRUE)", {}, "ISOWEEKNUM of a date before 1901"],
    ["SUM(OFFSET(A1,0,0,1,0.9))", {}, "OFFSET with a height or width that is no whole number"],
    ["_xlfn.MAKEARRAY(2.3,1,_xlfn.LAMBDA(_xlpm.x,_xlpm.y,1))", {}, "MAKEARRAY with a count that is no whole number"],
    ["_xlfn.CHOOSECOLS({7,8;9,10},{1,2;1,2})", {}, "CHOOSECOLS by a block of numbers"],
    ["TRANSPOSE(A1:B2)", { A1: 1 }, "TRANSPOSE over a range in a cell that is no array formula"],
    ["GCD(A1,A2)", { A1: f("NA()"), A2: f("1/0") }, "GCD of two different errors"],
    ["CORREL(A1:A2,B1:B2)", { A1: f("NA()"), B2: f("1/0") }, "CORREL of two different errors"],
    ['TEXT(0.6,"h:mm a/p")', {}, "the number format h:mm a/p in TEXT"],
    ['TEXT(1.5,"[h] h")', {}, "the number format [h] h in TEXT"],
    ['TEXT(1.5,"[s]:s")', {}, "the number format [s]:s in TEXT"],
    ['TEXT(0.5,"0%%")', {}, "the number format 0%% in TEXT"],
    ['TEXT(0.5,"0%0")', {}, "the number format 0%0 in TEXT"],
    ['TEXT(1234,"#,.#")', {}, "the number format #,.# in TEXT"],
    ['TEXT(1234,"0.0,0")', {}, "the number format 0.0,0 in TEXT"],
    ['TEXT(1234,",0")', {}, "the number format ,0 in TEXT"],
    ['TEXT(1234,";")', {}, "the number format ; in TEXT"],
    ['TEXT(-0.5,"[h]:mm")', {}, "elapsed time before 0"],
    ['TEXT(3000000,"[m]")', {}, "elapsed time before 0 or beyond the calendar"],
  ])("=%s with %j", (formula, cells, reason) => {
    expect(value(formula, cells)).toContain(`not evaluated: ${reason}`);
  });

  it("in formulas with braces", () => {
    // Excel calculates such arrays cell by cell: IS functions see the #N/A beyond a range, INDEX with {1} repeats its answer.
    expect(evaluated({ A1: legacy("A1:C1", "ISNUMBER(D1:E1)") }).at("A1")).toMatch(refused);
    expect(evaluated({ A1: legacy("A1:C1", "D1:E1*2"), D1: 2 }).at("C1")).toBe("#N/A");
    expect(evaluated({ A1: legacy("A1:B1", "INDEX({2,3;4,5},{1})") }).at("B1")).toMatch(refused);
    expect(evaluated({ A1: legacy("A1:B1", "HLOOKUP(D1:E1,{1,2;3,4},{2,1},0)"), D1: 1, E1: 2 }).at("B1")).toMatch(
      refused,
    );
    expect(evaluated({ B8: legacy("B8:B9", "IF(A8:A9,B8:B9,1)") }).at("B8")).toMatch(/circular reference/);
    expect(evaluated({ B8: dynamic("B8", "IF(A8:A9,C8:C9+NOSUCH(1),1)") }).at("B8")).toBe(1);
  });
});

function xlookupList(): Cells {
  const sought = [2, 5, 4, 5, 3, true, "ala"];
  return Object.fromEntries(
    sought.flatMap((one, row) => [
      [`A${row + 1}`, one],
      [`B${row + 1}`, "abcdefg"[row] ?? ""],
    ]),
  );
}

describe("rounding errors", () => {
  it("of a sum are measured against its summands, and hide nothing else", () => {
    const cells = { A1: 0.1, A2: 0.2, A3: -0.3, B1: 1e12 };
    const differences = (formula: string, stored: number): number => {
      const { book, evaluation } = evaluated({ ...cells, Z1: f(formula, stored) });
      return compareWithStored(book, evaluation).length;
    };
    expect(differences("SUM(A1:A3)", 0)).toBe(0);
    expect(differences("SUBTOTAL(109,A1:A3)", 0)).toBe(0);
    expect(differences("SUM(A1:A3)", 1e-9)).toBe(1);
    expect(differences("SUM(A1,B1*0)", 0.11)).toBe(1);
  });
});
