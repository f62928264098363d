import { describe, expect, it } from "vitest";
import { parseFormula } from "../../../src/workbook/formula/parse/parse";

describe("parsed formulas are remembered", () => {
  it("by their relative form: copies of one formula share a tree, in whatever workbook they are", () => {
    const inB1 = parseFormula("SUM(A1:A$9)*$C$2", 0, 1);
    expect(parseFormula("SUM(B5:B$9)*$C$2", 4, 2)).toBe(inB1);
    expect(parseFormula("SUM(B5:B$9)*$C$2", 0, 1)).not.toBe(inB1);
  });

  it("until five million characters are held, so that a folder of large workbooks fills no memory", () => {
    const first = parseFormula("1+2", 0, 0);
    for (let count = 0; count < 4; count += 1) parseFormula(`"${String(count).repeat(1_000_000)}"`, 0, 0);
    expect(parseFormula("1+2", 0, 0)).toBe(first);
    for (let count = 5; count < 8; count += 1) parseFormula(`"${String(count).repeat(1_000_000)}"`, 0, 0);
    expect(parseFormula("1+2", 0, 0)).not.toBe(first);
  });
});
