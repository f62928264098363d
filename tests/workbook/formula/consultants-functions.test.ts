import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import type { CellValue } from "../../../src/workbook/model";
import { arrayValue, bookOf, type Content, f, read, sheet, value } from "./book";

type Cells = Readonly<Record<string, Content>>;
type Case = [formula: string, expected: CellValue, cells?: Cells];

/** Numbers to ten digits: most are given rounded in their source. */
function expectValue(formula: string, expected: CellValue, cells: Cells = {}): void {
  const found = value(formula, cells);
  if (typeof expected === "number" && typeof found === "number")
    expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-10 * Math.max(1, Math.abs(expected)));
  else expect(found).toBe(expected);
}

describe("dates in texts", () => {
  // DATE_TIME.xlsx, TRIGONOMETRIC.xlsx and T_VALUE_VALUETOTEXT.xlsx, saved by Excel, and 1904 by the same rule.
  it.each<Case>([
    ['"2024-01-10"+0', 45301],
    ['"2024-01-10 18:00"+0', 45301.75],
    ['" 2024-01-10 "+0', "#VALUE!"],
    ['"2024-02-30"+0', 'not evaluated: the text "2024-02-30" is read as a number or not according to the locale'],
    ['"40%"*1', 0.4],
    ['"6:00"*24', 6],
    ['TIMEVALUE(" 1:30 ")', 0.0625],
    ['TIMEVALUE("24:00")', 0],
    ['TIMEVALUE("12:00 PM")', 0.5],
    ['TIMEVALUE("12:15 am")', 0.25 / 24],
    ['DATEVALUE("2024-02-29 06:00")', 45351],
    ['DATEVALUE("room 5")', "#VALUE!"],
    [
      'DATEVALUE("10.1.2024")',
      'not evaluated: the text "10.1.2024" is read as a number or not according to the locale',
    ],
    ['COUNTIF(A1:A2,"2024-01-10")', 1, { A1: 45301, A2: 45302 }],
    ['SUM("""2""",1)', "#VALUE!"],
  ])("=%s is %s", (formula, expected, cells) => expectValue(formula, expected, cells));
});

describe("spans of dates", () => {
  const dates = {
    A1: f("DATE(2011,1,30)"),
    A2: f("DATE(2011,2,1)"),
    A3: f("DATE(2011,1,1)"),
    A4: f("DATE(2011,12,31)"),
  };
  // Microsoft's examples of DAYS360, YEARFRAC, WORKDAY.INTL and NETWORKDAYS.INTL.
  it.each<Case>([
    ["DAYS360(A1,A2)", 1, dates],
    ["DAYS360(A3,A4)", 360, dates],
    ["DAYS360(A3,A4,TRUE)", 359, dates],
    ["DAYS360(DATE(2011,2,28),A4)", "not evaluated: DAYS360 from the end of February", dates],
    ["YEARFRAC(DATE(2012,1,1),DATE(2012,7,30))", 0.5805555555555556],
    ["YEARFRAC(DATE(2012,1,1),DATE(2012,7,30),1)", 0.576502732240437],
    ["YEARFRAC(DATE(2012,1,1),DATE(2012,7,30),3)", 0.578082191780822],
    ["YEARFRAC(DATE(2012,1,1),DATE(2012,7,30),5)", "#NUM!"],
    ["NETWORKDAYS.INTL(DATE(2006,1,1),DATE(2006,1,31))", 22],
    ["NETWORKDAYS.INTL(DATE(2006,2,28),DATE(2006,1,31))", -21],
    [
      "NETWORKDAYS.INTL(DATE(2006,1,1),DATE(2006,2,1),7,A8:A9)",
      22,
      { A8: f("DATE(2006,1,2)"), A9: f("DATE(2006,1,16)") },
    ],
    [
      'NETWORKDAYS.INTL(DATE(2006,1,1),DATE(2006,2,1),"0010001",A8:A9)',
      20,
      { A8: f("DATE(2006,1,2)"), A9: f("DATE(2006,1,16)") },
    ],
    ["WORKDAY.INTL(DATE(2012,1,1),30,0)", "#NUM!"],
    ["WORKDAY.INTL(DATE(2012,1,1),90,11)", 41013],
    ['WORKDAY.INTL(DATE(2012,1,1),5,"0000000")', 40914],
  ])("=%s is %s", (formula, expected, cells) => expectValue(formula, expected, cells));
});

describe("criteria that are codes", () => {
  const codes = {
    A1: "1A",
    A2: "1B",
    A3: "2A",
    A4: "R.07",
    A5: "r.07",
    A6: "R.10",
    A7: "Wall",
    B1: 1,
    B2: 2,
    B3: 4,
    B4: 8,
    B5: 16,
    B6: 32,
    B7: 64,
  };
  it.each<Case>([
    ['COUNTIF(A1:A7,"1A")', 1, codes],
    ['SUMIF(A1:A7,"R.07",B1:B7)', 24, codes],
    ['SUMIFS(B1:B7,A1:A7,"<>R.07")', 103, codes],
    ['COUNTIF(A1:A7,"R.*")', 3, codes],
    ['COUNTIF(A1:A7,"1A")', 1, { ...codes, A8: 7, A9: 0.5 }],
    ['COUNTIF(A1:A8,"1A")', "not evaluated: a number beside a criterion that may be one", { ...codes, A8: 0.5 }],
    [
      'COUNTIF(A1:A8,"R.07")',
      "not evaluated: a text and a criterion that some locale may read as the same number",
      { ...codes, A8: "R.070" },
    ],
  ])("=%s is %s", (formula, expected, cells) => expectValue(formula, expected, cells));
});

describe("costs", () => {
  // Microsoft's examples; figures without their rounding by the closed forms.
  const flows = { A1: -70000, A2: 12000, A3: 15000, A4: 18000, A5: 21000, A6: 26000 };
  const dated = {
    A1: -10000,
    A2: 2750,
    A3: 4250,
    A4: 3250,
    A5: 2750,
    B1: f("DATE(2008,1,1)"),
    B2: f("DATE(2008,3,1)"),
    B3: f("DATE(2008,10,30)"),
    B4: f("DATE(2009,2,15)"),
    B5: f("DATE(2009,4,1)"),
  };
  it.each<Case>([
    ["ROUND(PMT(0.08/12,10,10000),2)", -1037.03],
    ["ROUND(PMT(0.08/12,10,10000,0,1),2)", -1030.16],
    ["PMT(0,10,1000)", -100],
    ["ROUND(PV(0.08/12,12*20,500),2)", -59777.15],
    ["ROUND(FV(0.06/12,10,-200,-500,1),2)", 2581.4],
    ["ROUND(NPER(0.12/12,-100,-1000,10000,1),4)", 59.6739],
    ["ROUND(RATE(4*12,-200,8000),6)", 0.007701],
    ["RATE(10,100,1000)", "not evaluated: RATE of money that changes its direction more than once, or never"],
    ["ROUND(IPMT(0.1/12,1,3*12,8000),2)", -66.67],
    ["ROUND(IPMT(0.1,3,3,8000),2)", -292.45],
    ["ROUND(PPMT(0.08,10,10,200000),2)", -27598.05],
    ["ROUND(NPV(0.1,-10000,3000,4200,6800),2)", 1188.44],
    ["ROUND(IRR(A1:A6),4)", 0.0866, flows],
    ["ROUND(IRR(A1:A5),4)", -0.0212, flows],
    ["IRR(A2:A6)", "#NUM!", flows],
    ["IRR({-100,230,-132})", "not evaluated: IRR of money that changes its direction more than once"],
    ["ROUND(XNPV(0.09,A1:A5,B1:B5),2)", 2086.65, dated],
    ["ROUND(XIRR(A1:A5,B1:B5),6)", 0.373363, dated],
    ["SLN(30000,7500,10)", 2250],
    ["SYD(30000,7500,10,1)", 4090.909090909091],
    ["ROUND(EFFECT(0.0525,4),7)", 0.0535427],
    ["ROUND(NOMINAL(0.053543,4),7)", 0.0525003],
  ])("=%s is %s", (formula, expected, cells) => expectValue(formula, expected, cells));
});

describe("conversions and numerals", () => {
  it.each<Case>([
    ['CONVERT(1,"lbm","kg")', 0.45359237],
    ['CONVERT(1,"psi","Pa")', 6894.757293168361],
    ['CONVERT(1,"BTU","J")', 1055.05585262],
    ['CONVERT(1,"HP","W")', 745.6998715822702],
    ['CONVERT(1,"atm","kPa")', 101.325],
    ['CONVERT(80,"Reau","C")', 100],
    ['CONVERT(1,"mmHg","Pa")', 'not evaluated: CONVERT from "mmHg" to "Pa"'],
    ["ROMAN(499)", "CDXCIX"],
    ["ROMAN(499,4)", "not evaluated: ROMAN in a shorter form"],
    ["ROMAN(4000)", "#VALUE!"],
    ['ARABIC("LVII")', 57],
    ['ARABIC("-mmxxvi")', -2026],
    ['ARABIC("IC")', "not evaluated: ARABIC of a numeral that is not in the usual form"],
    ["BASE(7,2,10)", "0000000111"],
    ['DECIMAL("FF",16)', 255],
    ['DECIMAL("zap",36)', 45745],
    ['BIN2DEC("1111111111")', -1],
    ["BIN2HEX(11111011,4)", "00FB"],
    ["DEC2BIN(9,4)", "1001"],
    ["DEC2BIN(-100)", "1110011100"],
    ["DEC2HEX(-54)", "FFFFFFFFCA"],
    ["DEC2HEX(64,1)", "#NUM!"],
    ['HEX2DEC("FFFFFFFF5B")', -165],
    ['OCT2DEC("7777777533")', -165],
    ["CEILING.PRECISE(-4.1,-2)", -4],
    ["ISO.CEILING(4.3,2)", 6],
    ["FLOOR.PRECISE(-3.2,-1)", -4],
  ])("=%s is %s", (formula, expected) => expectValue(formula, expected));
});

describe("matrices", () => {
  it.each<Case>([
    ["MDETERM({1,3,8,5;1,3,6,1;1,1,1,0;7,3,10,2})", 88],
    ["MDETERM({3,6;1,2})", 0],
    ["MDETERM({1,2;3,4;5,6})", "#VALUE!"],
    ["INDEX(MINVERSE({4,-1;2,0}),2,1)", -1],
    ["MINVERSE({1,2;2,4})", "#NUM!"],
    ["MINVERSE({1,2,3;4,5,6;7,8,9.0000001})", "not evaluated: MINVERSE of a matrix that is nearly singular"],
  ])("=%s is %s", (formula, expected) => expectValue(formula, expected));
});

describe("lists with conditions in cells", () => {
  // Microsoft's example of the D-functions: an orchard.
  const orchard: Cells = {
    A1: "Tree",
    B1: "Height",
    C1: "Age",
    D1: "Yield",
    E1: "Profit",
    F1: "Height",
    A2: "=Apple",
    B2: ">10",
    F2: "<16",
    A3: "=Pear",
    A5: "Tree",
    B5: "Height",
    C5: "Age",
    D5: "Yield",
    E5: "Profit",
    A6: "Apple",
    B6: 18,
    C6: 20,
    D6: 14,
    E6: 105,
    A7: "Pear",
    B7: 12,
    C7: 12,
    D7: 10,
    E7: 96,
    A8: "Cherry",
    B8: 13,
    C8: 14,
    D8: 9,
    E8: 105,
    A9: "Apple",
    B9: 14,
    C9: 15,
    D9: 10,
    E9: 75,
    A10: "Pear",
    B10: 9,
    C10: 8,
    D10: 8,
    E10: 77,
    A11: "Apple",
    B11: 8,
    C11: 9,
    D11: 6,
    E11: 45,
    G1: "tree",
    G2: "app",
    H1: "Size",
    H2: 5,
  };
  it.each<Case>([
    ['DCOUNT(A5:E11,"Age",A1:F2)', 1],
    ['DCOUNTA(A5:E11,"Profit",A1:F2)', 1],
    ['DMAX(A5:E11,"Profit",A1:A3)', 105],
    ['DMIN(A5:E11,"Profit",A1:B2)', 75],
    ['DSUM(A5:E11,"Profit",A1:A2)', 225],
    ["DSUM(A5:E11,5,A1:F2)", 75],
    ['DPRODUCT(A5:E11,"Yield",A1:F2)', 10],
    ['DAVERAGE(A5:E11,"Yield",A1:B2)', 12],
    ["DAVERAGE(A5:E11,3,A5:E11)", 13],
    ['ROUND(DSTDEV(A5:E11,"Yield",A1:A3),6)', 2.966479],
    ['DVARP(A5:E11,"Yield",A1:A3)', 7.04],
    ['DGET(A5:E11,"Yield",A1:A3)', "#NUM!"],
    ['DGET(A5:E11,"Yield",A1:F2)', 10],
    ['DSUM(A5:E11,"Profit",G1:G2)', 225],
    ["DCOUNT(A5:E11,,A1:F2)", 1],
    ['DSUM(A5:E11,"Weight",A1:A2)', "#VALUE!"],
    ['DSUM(A5:E11,"Profit",H1:H2)', "not evaluated: DSUM with a condition under a heading that the list does not have"],
  ])("=%s is %s", (formula, expected) => expectValue(formula, expected, orchard));
});

it("the name of a sheet is taken from CELL, whose path depends on the machine", () => {
  const path = 'CELL("filename",A1)';
  const cells = {
    B1: f(`MID(${path},FIND("]",${path})+1,255)`),
    B2: f(`RIGHT(${path},LEN(${path})-FIND("]",${path}))`),
    B3: f(`_xlfn.TEXTAFTER(${path},"]")`),
    B4: f(`REPLACE(${path},1,FIND("]",${path}),"")`),
    B5: f(path),
    B6: f('MID(CELL("filename"),FIND("]",CELL("filename"))+1,31)'),
    B7: f(`MID(${path},FIND("]",${path})+1,5)`),
  };
  const book = bookOf([sheet("Ground floor", cells), sheet("Other", {})]);
  const evaluation = evaluateBook(book);
  const values = Object.keys(cells).map((address) => read(book, evaluation, address));
  expect(values.slice(0, 4)).toEqual(Array(4).fill("Ground floor"));
  for (const other of values.slice(4)) expect(other).toMatch(/^not evaluated: CELL/);
});

it("an inverse spills", () => {
  expect(arrayValue("SUM(MMULT(MINVERSE({2,1;1,3}),{2,1;1,3}))")).toBeCloseTo(2, 14);
});
