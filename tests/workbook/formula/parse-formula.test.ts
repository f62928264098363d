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
    const parseSome = (from: number, to: number): void => {
      for (let count = from; count < to; count += 1) parseFormula(`"${String(count).repeat(60_000 / 3)}"`, 0, 0);
    };
    parseSome(100, 160);
    expect(parseFormula("1+2", 0, 0)).toBe(first);
    parseSome(160, 190);
    expect(parseFormula("1+2", 0, 0)).not.toBe(first);
  });
});

/** Why a formula is not read, undefined where it is. */
const refusal = (formula: string): string | undefined => {
  const { root } = parseFormula(formula, 0, 0);
  return root.type === "refused" ? root.reason : undefined;
};

describe("a formula that no person wrote is refused with its reason", () => {
  it("where it is longer than any that Excel stores", () => {
    expect(refusal(`"${"a".repeat(70_000)}"`)).toMatch(/more than 65536 characters/);
    expect(refusal(`"${"a".repeat(60_000)}"`)).toBeUndefined();
  });

  it("where its parts are nested without end, be it in functions or by signs", () => {
    for (const formula of ["-".repeat(5000) + "1", `${"ABS(".repeat(300)}1${")".repeat(300)}`])
      expect(refusal(formula)).toMatch(/nested more than 256 deep/);
    expect(refusal(`${"ABS(".repeat(200)}1${")".repeat(200)}`)).toBeUndefined();
  });

  it("where an apostrophe encloses no sheet's name; those of sheets, of columns and in texts are read", () => {
    expect(refusal("'".repeat(32_001))).toMatch(/apostrophe/);
    expect(refusal("'a'+1")).toMatch(/apostrophe/);
    for (const formula of ["'a b'!A1+'it''s'!B2", "SUM('a b:c d'!A1)", "SUM(Table1[it''s])", `"it's "&A1`])
      expect(refusal(formula)).toBeUndefined();
  });

  it("but a sum of as many operations as a formula can hold is read", () => {
    expect(refusal(`${"A2+".repeat(5000)}A2`)).toBeUndefined();
  });
});
