import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { ErrorValue, type CellValue } from "../../../src/workbook/model";
import { arrayValue, bookOf, evaluated, f, read, sheet, value } from "./book";

const list = {
  A1: 3,
  A2: "x",
  A3: true,
  A5: 5,
  B1: 10,
  B2: 20,
  B3: 30,
  B4: 40,
  B5: 50,
  C1: "wall",
  C2: "roof",
  C3: "Wall",
  C5: "w*",
};

describe("functions, one trap each", () => {
  it.each<[formula: string, expected: CellValue, why?: string]>([
    ["ROUND(1.005,2)", 1.01, "as written in decimals"],
    ["ROUND(2.5,0)", 3, "half away from zero"],
    ["ROUND(-1234.5,-2)", -1200, "to hundreds"],
    ["TRUNC(-8.999,2)", -8.99, "toward zero"],
    ["INT(-1.5)", -2, "down"],
    ["MOD(-3,2)", 1, "the divisor's sign"],
    ["DATE(1900,2,29)", 60, "the leap day that never was"],
    ["DAY(60)", 29, "and back"],
    ["DATE(2023,14,1)", 45323, "months carry"],
    ["EOMONTH(DATE(2024,1,31),1)", 45351, "the leap day that was"],
    ["WEEKDAY(45000,2)", 3, "15 March 2023 was a Wednesday"],
    ["SUM(A1:A5)", 8, "text and truth values in ranges do not count"],
    ['SUM("3",TRUE)', 4, "given directly they do"],
    ["COUNT(A1:A5,TRUE)", 3, "COUNT likewise"],
    ["COUNTA(A1:A5)", 4, "everything but blanks"],
    ["AVERAGE(A1:A5)", 4, "blanks are left out"],
    ["MAX(A9:A12)", 0, "of nothing"],
    ["AVERAGE(A9:A12)", "#DIV/0!", "of nothing"],
    ['COUNTIF(C1:C5,"wall")', 2, "any letter case"],
    ['COUNTIF(C1:C5,"w*")', 3, "wildcards"],
    ['COUNTIF(C1:C5,"w~*")', 1, "escaped wildcards"],
    ['COUNTIF(C1:C5,"<>wall")', 3, "blanks are not the wall"],
    ['COUNTIF(C1:C5,"")', 1, "blanks"],
    ['SUMIFS(B1:B5,C1:C5,"wall",B1:B5,">10")', 30, "two criteria"],
    ['SUMIF(B1:B5,">25")', 120, "its own range"],
    ['MATCH("ROOF",C1:C5,0)', 2, "exact, any case"],
    ["MATCH(35,B1:B5)", 3, "the last not above"],
    ["VLOOKUP(30,B1:C5,2,FALSE)", "Wall", "exact"],
    ["INDEX(B1:B5,MATCH(40,B1:B5,0))", 40, "found"],
    ['LOOKUP(2,1/(C1:C5="wall"),B1:B5)', 30, "the last match"],
    ['_xlfn.XLOOKUP("none",C1:C5,B1:B5,"absent")', "absent", "if not found"],
    ["_xlfn.XLOOKUP(35,B1:B5,B1:B5,,1)", 40, "next larger"],
    ["IF(A9,1,2)", 2, "a blank is false"],
    ['IFERROR(1/0,"no")', "no", "errors caught"],
    [
      "IFERROR(NOSUCH(1),0)",
      "not evaluated: the function NOSUCH is not one of those that are calculated here",
      "not knowing is not an error",
    ],
    ["AND(A2,TRUE)", true, "text in a range does not count"],
    ["SUBTOTAL(9,B1:B5)", 150, "all visible"],
    ['LEFT("abc",9)', "abc", "as much as there is"],
    ['FIND("b","abc")', 2, "from one"],
    ['TEXT(1.005,"0.00")', "1.01", "rounds as ROUND does"],
    ['TEXT(0.1234,"0.0%")', "12.3%", "per cent"],
    ['CONVERT(68,"F","C")', 20, "temperature"],
    ['HYPERLINK("https://example.org","shown")', "shown", "the text shown"],
    ["SUMPRODUCT(B1:B2,B1:B3)", "#VALUE!", "unlike sizes"],
    ["LOG(0)", "#NUM!", "no logarithm"],
    ["NOW()", "not evaluated: NOW depends on the clock", "volatile"],
    ["RAND()", "not evaluated: RAND gives another value at every calculation", "volatile"],
  ])("=%s is %s: %s", (formula, expected) => {
    const found = value(formula, list);
    if (typeof expected === "number" && typeof found === "number") expect(found).toBeCloseTo(expected, 12);
    else expect(found).toBe(expected);
  });

  it("refuse where rounding error or an accident decides", () => {
    expect(value("INT((0.1+0.7)*10)")).toMatch(/^not evaluated: an integer part/);
    expect(value("MATCH(5,A1:A3,1)", { A1: 3, A2: 1, A3: 7 })).toMatch(/^not evaluated: a list searched as sorted/);
    expect(value("MATCH(0.3,A1:A1,0)", { A1: 0.1 + 0.2 })).toMatch(/^not evaluated: a number looked up/);
    expect(value("MIN(A1:A3)", { A1: 1 })).toBe(1);
    expect(value('CONVERT(1,"mmHg","Pa")')).toMatch(/^not evaluated: CONVERT/);
  });

  it.each<[formula: string, reason: string]>([
    ["MOD(1,0.1)", "MOD of a number that is a multiple"],
    ["MOD(0.3,0.1)", "MOD of a number that is a multiple"],
    ["MOD(-0.6,0.2)", "MOD of a number that is a multiple"],
    ['TEXT(45000,"bbbb")', "the number format bbbb"],
    ['TEXT(45000,"e")', "the number format e"],
    ['TEXT(45000,"ggge")', "the number format ggge"],
    ['TEXT(0,"zero")', "the number format zero"],
    ['TEXT(5,"0 Pa")', "the number format 0 Pa"],
    ['TEXT(5,"0 m")', "the number format 0 m"],
    ['TEXT(5,"@@")', "the number format @@"],
    ['TEXT(0.5,"# #/#")', "the number format # #/#"],
    ["EDATE(A9,12)", "months counted from day 0, where a blank date leads"],
    ["EOMONTH(0,-1)", "the end of a month before 1900"],
    ["DATE(2024,-1.5,1)", "DATE with a negative number that is not whole"],
    ["HYPERLINK(A9)", "HYPERLINK to something that is no text"],
    ["SWITCH(3,NA(),1,3,2)", "an error value among those that SWITCH compares"],
    ['COUNTIF(A1:A3,"5 ")', "a number with blanks around it as criterion"],
    ["SKEW(0.1,0.1,0.1)", "the shape of equal numbers"],
    ["CORREL({1E+200,2,3},{1,2,3})", "a line or correlation through numbers too large"],
    ["SLOPE({1,2,4},{0.1,0.1,0.1})", "a line or correlation through equal numbers"],
    ["FREQUENCY(A1:A3,A1:A3)", "FREQUENCY with limits that are no numbers"],
    ["_xlfn.XLOOKUP(2,{3,1,2},{1,2,3},,0,2)", "a binary search in a list that is not strictly ascending"],
    ["_xlfn.BYROW(A1:B2,_xleta.SUM)", "the function SUM named without being called"],
    ['"\u0665"+1', 'the text "\u0665" is read as a number or not'],
  ])("refuse %s where it is not certain what Excel makes of it", (formula, reason) => {
    expect(value(formula)).toContain(`not evaluated: ${reason}`);
  });

  it.each<[formula: string, expected: CellValue]>([
    ["MOD(2.5,0.5)", 0],
    ["MOD(0.25,1)", 0.25],
    ["MOD(-1.75,1)", 0.25],
    ["MOD(7,3)", 1],
    ['AND("")', "#VALUE!"],
    ['AND("",TRUE)', true],
    ['OR(FALSE,"")', false],
    ['OR("","")', "#VALUE!"],
    ['TEXT(1234.5,"0.00E+00")', "1.23E+03"],
    ['TEXT(45000,"d mmmm yyyy")', "15 March 2023"],
    ['TEXT(45000.75,"h:mm AM/PM")', "6:00 PM"],
    ['TEXT(5,"0"" Pa, bege""")', "5 Pa, bege"],
    ['TEXT(-5,"0;[Red]-0")', "-5"],
    ['TEXT(61.5,"[h]:mm")', "1476:00"],
    ["EXP(-745)", 0],
    ["_xlfn.DAYS(-1,5)", "#NUM!"],
    ["SLOPE({1,2,4},{5,5,5})", "#DIV/0!"],
    ["ERFC(1E+300)", 0],
    ["_xlfn.ERF.PRECISE(-1E+300)", -1],
    ["NORMSDIST(1E+300)", 1],
    ["EOMONTH(0,0)", 31],
    ["SWITCH(3,3,2,NA(),1)", 2],
    ['SUBSTITUTE("a","","b",0)', "#VALUE!"],
    ["_xlfn.XLOOKUP(2.5,{1,2,3},{10,20,30},,-1,2)", 20],
    ["_xlfn.XMATCH(2,{3,2,1},0,-2)", 2],
  ])("are certain of =%s", (formula, expected) => {
    expect(value(formula)).toBe(expected);
  });

  it("leave hidden rows out where asked", () => {
    const rows = {
      A1: 1,
      A2: 2,
      A3: 4,
      A4: 8,
      B1: f("SUBTOTAL(9,A1:A4)"),
      B2: f("SUBTOTAL(109,A1:A4)"),
      B3: f("AGGREGATE(9,5,A1:A4)"),
      B4: f("SUBTOTAL(9,A1:A4,B1:B3)"),
    };
    const book = bookOf([sheet("Sheet1", rows, { hiddenRows: new Set([1, 2]), filteredRows: new Set([2]) })]);
    const evaluation = evaluateBook(book);
    expect(["B1", "B2", "B3"].map((address) => read(book, evaluation, address))).toEqual([11, 9, 9]);
    // Other subtotals among its cells are left out: B1 to B3 add nothing.
    expect(read(book, evaluation, "B4")).toBe(11);
  });

  it("refuse a blank inside a computed array, which Excel may count as 0", () => {
    expect(arrayValue("MIN(IF({TRUE;TRUE},A1:A2))", { A1: 5 })).toMatch(/^not evaluated: a blank inside/);
    expect(arrayValue("AVERAGE(_xlfn._xlws.FILTER(A1:A2,{TRUE;TRUE}))", { A1: 5 })).toMatch(/^not evaluated: a blank/);
    expect(arrayValue("SUM(IF({TRUE;TRUE},A1:A2))", { A1: 5 })).toBe(5);
    expect(arrayValue('_xlfn._xlws.FILTER(A1:A2,{FALSE;TRUE})&"x"', { A1: 5 })).toBe("x");
  });

  it("refuse what ordinary formulas and array formulas do differently", () => {
    expect(value("SUMPRODUCT(IF(B1:B5>20,1,0))", list)).toMatch(/^not evaluated: IF over a range/);
    expect(arrayValue("SUMPRODUCT(IF(B1:B5>20,1,0))", list)).toBe(3);
    expect(value("SUM(INDEX(B1:B5,{1,2}))", list)).toMatch(/^not evaluated: INDEX with arrays/);
    expect(arrayValue("SUM(INDEX(B1:B5,{1,2}))", list)).toBe(30);
    expect(value("SUM(_xlfn._xlws.FILTER(B1:B5,B1:B5>20))", list)).toMatch(
      /^not evaluated: a calculation with a range/,
    );
    expect(value("VLOOKUP(20,CHOOSE({1,2},B1:B5,C1:C5),2,FALSE)", list)).toBe("roof");
    expect(arrayValue("_xlfn.UNIQUE(A:A)", list)).toMatch(/^not evaluated: a whole column/);
  });

  it("read the clock only when one is given, and then compare nothing", () => {
    const { at } = evaluated({ A1: f("TODAY()"), A2: f("YEAR(A1)") }, { now: new Date(2026, 10, 24, 12) });
    expect([at("A1"), at("A2")]).toEqual([46350, 2026]);
  });

  it("do not choose among different errors in a block", () => {
    const [first, second] = [new ErrorValue("#N/A"), new ErrorValue("#DIV/0!")];
    expect(value("SUM(A1:B2)", { B1: first, A2: second })).toMatch(/^not evaluated: different errors in one block/);
    expect(value("SUM(A1:B2)", { A1: first, B2: second })).toBe("#N/A");
    expect(value("SUM(A1:B2)", { B1: first, A2: first })).toBe("#N/A");
  });

  it("give the errors of others on", () => {
    expect(value("SUM(A1:A2)", { A1: new ErrorValue("#N/A"), A2: new ErrorValue("#DIV/0!") })).toBe("#N/A");
  });

  it("count into limits that stand in any order, equal ones at the first", () => {
    // Microsoft, "Count unique values among duplicates": numbers as their own limits.
    const numbers = [986, 456, 67, 1, 34, 689, 456, 56, 67];
    const cells = Object.fromEntries(numbers.map((number, row) => [`A${row + 1}`, number]));
    expect(arrayValue("SUM(IF(FREQUENCY(A1:A9,A1:A9)>0,1))", cells)).toBe(7);
    expect(arrayValue("INDEX(FREQUENCY(A1:A9,A1:A9),2)", cells)).toBe(2);
  });
});
