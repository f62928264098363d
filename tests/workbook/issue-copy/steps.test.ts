import { expect, it } from "vitest";
import { normalizeFormula } from "../../../src/workbook/issue-copy/fingerprint";
import { chooseEdge, roundToStep } from "../../../src/workbook/issue-copy/mark";

/** Times of a logger's rows, a third of which have a 5 behind the fifteenth digit: programs round it up or down. */
const times = Array.from({ length: 600 }, (_, row) => 46_324.422 + row / 86_400 / 3);
const roundedUp = (value: number) => Number((value + 4e-12).toPrecision(15));
const roundedDown = (value: number) => Number((value - 4e-12).toPrecision(15));

it("numbers that a program rounds to 15 digits, up or down, stay in their steps", () => {
  const edge = chooseEdge(times.map((value) => ({ value, digits: 11 })));
  for (const time of times)
    for (const other of [roundedUp(time), roundedDown(time)])
      expect(roundToStep(other, 11, edge)).toBe(roundToStep(time, 11, edge));
});

it("a number that differs within its digits is another", () => {
  for (const edge of [0, 57, 199]) {
    expect(roundToStep(-50.1, 11, edge)).not.toBe(roundToStep(-50.100_000_01, 11, edge));
    expect(roundToStep(0.6, 10, edge)).not.toBe(roundToStep(0.600_000_001, 10, edge));
    expect(roundToStep(1e6, 11, edge)).not.toBe(roundToStep(1e7, 11, edge));
    expect(roundToStep(5, 11, edge)).not.toBe(roundToStep(-5, 11, edge));
    expect(roundToStep(0, 11, edge)).toBe("0");
  }
});

it("a number on either side of a power of ten is one", () => {
  expect(roundToStep(0.999_999_999_999_999_9, 10, 100)).toBe(roundToStep(1, 10, 100));
  expect(roundToStep(999.999_999_999_999_9, 10, 100)).toBe(roundToStep(1000, 10, 100));
});

it.each([
  ['LOOKUP(9E+99,J$15:J15,"a b")', 'lookup( 9e+099 ,J$15:J15, "a b")'],
  ['COUNTIF(F:F,">="&0.0)', 'COUNTIF(F:F,">="&0)'],
  ["D23*16.018463373960138", "D23*16.0184633739601"],
  ["IF(TRUE(),'Rooms'!A1,1:3)", "IF(TRUE,Rooms!A1,1:3)"],
  ["_xlfn.XLOOKUP(A1,LOG10(B2),.5)", "XLOOKUP(A1,LOG10(B2),0.50)"],
])("%s is %s for a program that saves it", (one, other) => {
  const bare = (text: string) => normalizeFormula(text, (number) => roundToStep(number, 11, 33));
  expect(bare(one)).toBe(bare(other));
});

it.each([
  ['A1="a b"', 'A1="ab"'],
  ["A1*2.5", "A1*2.51"],
  ["A1", "$A$1"],
  ["A10", "A1"],
  ["'North side'!A1", "'Northside'!A1"],
])("%s is not %s", (one, other) => {
  const bare = (text: string) => normalizeFormula(text, (number) => roundToStep(number, 11, 33));
  expect(bare(one)).not.toBe(bare(other));
});
