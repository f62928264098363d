import { describe, expect, it } from "vitest";
import { formatFullAddress } from "../../../src/workbook/book/address";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import type { Outcome } from "../../../src/workbook/formula/evaluation";
import { ErrorValue, type Book } from "../../../src/workbook/model";
import { traceOf } from "../../../src/workbook/trace/trace";
import { bookOf, dynamic, f, legacy, sheet, type Content } from "../formula/book";

const rooms = ["kitchen", "bath", "hall", "kitchen", "attic", "bath", "hall", "kitchen"];
const figures = Object.fromEntries(
  rooms.flatMap((room, row): [string, Content][] => [
    [`A${row + 2}`, room],
    ...["B", "C", "D"].map((letter, column): [string, Content] => [
      `${letter}${row + 2}`,
      10.4 + 7.3 * row + 3.1 * column,
    ]),
  ]),
);
const headings = { A1: "room", B1: "area", C1: "volume", D1: "flow" };
const chosen = { F2: 2, F3: 3, F4: "kitchen", F5: "B3:B5", F6: "Lower" };

/** The book with a formula in H2; its inputs are figures, what is chosen, and another sheet's. */
function bookWith(content: Content): Book {
  const sheets = [
    sheet("Test", { ...headings, ...figures, ...chosen, J2: dynamic("J2:J4", "B2:B4*2"), H2: content }),
    sheet("Lower 'A' floor", { B1: 1.5, B2: 2.5, B3: 4 }),
  ];
  return bookOf(sheets, {
    names: [
      { name: "Limit", text: "Test!$C$3" },
      { name: "Areas", text: "Test!$B$2:$B$9" },
      { name: "Share", text: "Test!$B$4*Test!$C$4" },
      { name: "Beside", text: "Test!XFD1" },
    ],
    tables: [
      {
        name: "Rooms",
        sheet: 0,
        area: { top: 0, left: 0, bottom: 8, right: 3 },
        columns: ["room", "area", "volume", "flow"],
        headerRows: 1,
        totalsRows: 0,
      },
    ],
  });
}

const matrix = { name: "x", matrix: true, repeating: false, type: "any" as const };
const addIn = new Map([
  [
    "TWICE",
    {
      parameters: [matrix],
      compute: (given: unknown) => (given as unknown[][]).map((row) => row.map((value) => 2 * Number(value))),
    },
  ],
]);
const functions = [{ id: "TWICE", description: "Twice a value.", parameters: [{ name: "x" }] }];

const traced = (book: Book) => traceOf({ book, evaluation: evaluateBook(book, { addIn }), addIn, functions })(0, 1, 7);

const shown = (outcome: Outcome | undefined) =>
  !outcome?.evaluated ? "none" : outcome.value instanceof ErrorValue ? outcome.value.code : outcome.value;

/** The typed cells on which the result depends: those that change it when they are changed, in any of several ways. */
function neededInputs(book: Book): string[] {
  const base = evaluateBook(book, { addIn });
  const results = (evaluation = base) =>
    Array.from({ length: 8 }, (_, row) => shown(evaluation.outcome(0, row + 1, 7)));
  expect(results()[0]).not.toBe("none");
  const before = JSON.stringify(results());
  return book.sheets.flatMap(({ name, cells }, index) =>
    [...cells.values()].flatMap(({ row, column, value, formula }) => {
      if (formula || base.outcome(index, row, column)) return [];
      const others = typeof value === "number" ? [value + 1, value * 1.02] : ["kitchen", "B4:B6", "attic", "B2:B5"];
      const matters = others.some((other) => {
        if (other === value) return false;
        const set = [{ sheet: name, row, column, value: other }];
        return JSON.stringify(results(evaluateBook(book, { addIn, set }))) !== before;
      });
      return matters ? [formatFullAddress(name, row, column)] : [];
    }),
  );
}

describe("no typed cell on which a result depends is left out", () => {
  it.each([
    ["SUMPRODUCT((A2:A9=F4)*(B2:B9))"],
    ["SUMPRODUCT(--(A2:A9=F4),C2:C9)"],
    ["SUMPRODUCT(B2:B9,OFFSET(B2:B9,0,1))"],
    ["SUMPRODUCT((Rooms[room]=F4)*Rooms[area])"],
    ["SUM(Rooms[[area]:[flow]])"],
    ["SUMIF(A2:A9,F4,B2:B9)"],
    ["SUMIF(A2:A9,F4,B2)"],
    ['SUMIF(B2:B9,">20")'],
    ['AVERAGEIF(A2:A9,"bath",C2)'],
    ['SUMIFS(B2:B9,A2:A9,F4,C2:C9,">20")'],
    ['COUNTIFS(A2:A9,F4,B2:B9,"<"&C4)'],
    ['MAXIFS(B2:B9,A2:A9,F4,C2:C9,">20")'],
    ["INDEX(B2:D9,F2,F3)"],
    ["SUM(INDEX(B2:D9,0,F2))"],
    ["SUM(B2:INDEX(B2:B9,F3))"],
    ["SUM(INDEX(B2:B9,F2):INDEX(B2:B9,F3))"],
    ["SUM(OFFSET(B2,F2,0,F3,1))"],
    ["SUM(INDIRECT(F5))"],
    ["VLOOKUP(F4,A2:D9,F3,FALSE)"],
    ["VLOOKUP(F4,A2:D9,F3,F9)"],
    ["HLOOKUP(B1,A1:D9,F3,FALSE)"],
    ["LOOKUP(2,1/(A2:A9=F4),C2:C9)"],
    ["INDEX(C2:C9,MATCH(F4,A2:A9,0))"],
    ["INDEX(B2:B9,MATCH(MAX(C2:C9),C2:C9,0))"],
    ["SUM(B:B)"],
    ["SUM($3:$3)"],
    ["SUM('Lower ''A'' floor'!B1:B3)"],
    ["'Lower ''A'' floor'!$B$2*2"],
    ["Limit*2"],
    ["SUM(Areas)"],
    ["Share+1"],
    ["Beside+1"],
    ["SUM(_xlfn.ANCHORARRAY(J2))"],
    ["J3*3"],
    ["SUM(B2:C9 C3:D5)"],
    ["SUM((B2,C3))"],
    ["IF(OR(B2>100,C2>1),D2,B3)"],
    ["CHOOSE(F2,B2,C2,D2)"],
    ["SUBTOTAL(9,B2:B9)"],
    ["INDEX((B2:B9,C2:C9),2,1,F2)"],
  ])("by an ordinary formula: %s", (text) => {
    const book = bookWith(f(text));
    expect(traced(book).inputs).toEqual(expect.arrayContaining(neededInputs(book)));
  });

  it.each([
    ["XLOOKUP(F4,A2:A9,D2:D9)"],
    ['XLOOKUP("none",A2:A9,D2:D9,F2)'],
    ["SUM(FILTER(B2:B9,A2:A9=F4))"],
    ["LET(x,B2,y,C2,x*y)"],
    ["MAP(B2:B4,LAMBDA(v,v*F2))"],
    ['_xldudf_STILLAIR_TWICE(IF(B2:B9="","",B2:B9))'],
    ["SUM(_xldudf_STILLAIR_TWICE(FILTER(B2:B9,A2:A9=F4)))"],
  ])("by one that may spill: %s", (text) => {
    const book = bookWith(dynamic("H2:H2", text));
    expect(traced(book).inputs).toEqual(expect.arrayContaining(neededInputs(book)));
  });

  it.each([
    ["INDEX(C2:C9,MATCH(1,(A2:A9=F4)*(B2:B9>10),0))"],
    ["MIN(IF(A2:A9=F4,B2:B9))"],
    ["INDEX(LINEST(LN(C2:C9),LN(B2:B9)),1,2)"],
    ["SUM(CHOOSE({1,2},B2:B9,C2:C9))"],
  ])("by one in braces: %s", (text) => {
    const book = bookWith(legacy("H2:H2", text));
    expect(traced(book).inputs).toEqual(expect.arrayContaining(neededInputs(book)));
  });
});

describe("the words say what the formula does", () => {
  it.each([
    ["SUMIF(A2:A9,F4,B2:B9)", "the sum of “area” (8 cells) where “room” (8 cells) matches Test!F4"],
    ['SUMIF(B2:B9,">20")', 'the sum of “area” (8 cells) where “area” (8 cells) matches ">20"'],
    [
      'COUNTIFS(A2:A9,"bath",B2:B9,">20")',
      'the number of rows where “room” (8 cells) matches "bath" and “area” (8 cells) matches ">20"',
    ],
    ['SUMIFS(B2:B9,A2:A9,"bath")', 'the sum of “area” (8 cells) where “room” (8 cells) matches "bath"'],
    ["MATCH(20,B2:B9)", "the place where “area” (8 cells) is 20 or the next smaller"],
    ["MATCH(F4,A2:A9,0)", "the place where “room” (8 cells) is Test!F4"],
    ["VLOOKUP(20,B2:D9,2)", "“bath, volume” (where “area” (8 cells) is 20 or the next smaller)"],
    [
      'LOOKUP(2,1/(A2:A9="hall"),C2:C9)',
      '“hall, volume” (where 1 ÷ (“room” (8 cells) = "hall") is 2 or the next smaller)',
    ],
    ["ABS(B2-C2)/2", "|“kitchen, area” − “kitchen, volume”| ÷ 2"],
    ["ROUND(B2+C2,1)*2", "((“kitchen, area” + “kitchen, volume”) rounded to 1 decimals) × 2"],
    ["SUM(B2:B9)*2", "(the sum of “area” (8 cells)) × 2"],
    ["SUM(B2:B9)>2", "the sum of “area” (8 cells) > 2"],
    ["SQRT(B2)*2", "√(“kitchen, area”) × 2"],
    // A blank cell for the kind of match is FALSE; powers are taken from the left.
    ["VLOOKUP(F4,A2:D9,2,F9)", "“kitchen, area” (where “room” (8 cells) is Test!F4)"],
    ["F2^F3^F2", "(Test!F2^Test!F3)^Test!F2"],
  ])("%s: %s", (text, words) => {
    expect(traced(bookWith(f(text))).places[0]?.words).toBe(words);
  });

  it("a match that need not be exact in XLOOKUP too", () => {
    const words = (text: string) => traced(bookWith(dynamic("H2:H2", text))).places[0]?.words;
    expect(words("XLOOKUP(20,B2:B9,C2:C9,,-1)")).toContain("is 20 or the next smaller");
    expect(words("XLOOKUP(20,B2:B9,C2:C9,,1)")).toContain("is 20 or the next larger");
    expect(words("XLOOKUP(B3,B2:B9,C2:C9)")).toContain("is “bath, area”)");
  });
});
