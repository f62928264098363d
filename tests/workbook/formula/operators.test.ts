import type { CellValue } from "../../../src/workbook/model";
import { describe, expect, it } from "vitest";
import { evaluated, f, value } from "./book";

describe("operators follow Excel", () => {
  it.each<[formula: string, expected: CellValue, why?: string]>([
    ["-2^2", 4, "the sign binds tighter than the power"],
    ["2^3^2", 64, "powers are taken from the left"],
    ["50%", 0.5, "per cent"],
    ["-A1%", -0.5, "sign and per cent"],
    ['"3"+4', 7, "numeric text is a number"],
    ["TRUE+TRUE", 2, "TRUE is 1"],
    ['"abc"+1', "#VALUE!", "other text is an error"],
    ["0^0", "#NUM!", "no value"],
    ["1/0", "#DIV/0!", "division by zero"],
    ['1/3&""', "0.333333333333333", "15 digits in text"],
    ["0.1+0.2=0.3", true, "comparisons see 15 digits"],
    ['1<"a"', true, "numbers before text"],
    ['"z"<FALSE', true, "text before truth values"],
    ['"abc"="ABC"', true, "letter case does not matter"],
    ["B9=0", true, "a blank equals 0"],
    ['B9=""', true, "a blank equals an empty text"],
    ["1.10&B9", "1.1", "a blank joins as nothing"],
    ["+A2", "x", "a plus sign changes nothing"],
  ])("=%s is %s: %s", (formula, expected) => {
    expect(value(formula, { A1: 50, A2: "x" })).toBe(expected);
  });

  it("snaps a final difference near zero, and only a final one without parentheses", () => {
    expect(value("0.5-0.4-0.1")).toBe(0);
    expect(value("(0.5-0.4-0.1)")).toBeCloseTo(-2.7755575615628914e-17, 30);
    expect(value("(0.5-0.4-0.1)*1")).toBeCloseTo(-2.7755575615628914e-17, 30);
    // Reported in public for Excel: not snapped, because it is larger than the last bits.
    expect(value("33.665-33.95+0.285")).not.toBe(0);
    expect(value("IF(TRUE,0.5-0.4-0.1)")).toMatch(/^not evaluated: a difference near 0/);
  });

  it("refuses text that depends on the locale", () => {
    for (const text of ["1/2/2024", "$5", "1,000", "5 Mai", "3 EUR", "2 pm"]) {
      expect(value("A1+1", { A1: text })).toMatch(/^not evaluated: the text .* locale/);
    }
    expect(value("A1+1", { A1: "Room 5" })).toBe("#VALUE!");
    // Times and per cents are written alike everywhere.
    expect(value("A1+1", { A1: "12:30" })).toBe(1 + 12.5 / 24);
    expect(value("A1+1", { A1: "5%" })).toBe(1.05);
  });

  it("compares a blank with any text for equality, whatever signs it holds", () => {
    expect(value('B1="two-point"')).toBe(false);
    expect(value('"two-point"<>B1')).toBe(true);
  });

  it("gives a blank as 0 in a cell, but keeps it blank on the way", () => {
    const { at } = evaluated({ A1: f("B1"), A2: f('IF(TRUE,B1)&"x"'), A3: f("ISBLANK(B1)"), A4: f("IF(B1=0,1,2)") });
    expect([at("A1"), at("A2"), at("A3"), at("A4")]).toEqual([0, "x", true, 1]);
  });

  it("shows the left of two errors and refuses where that is not certain", () => {
    expect(value("1/0+NA()")).toMatch(/^(#DIV\/0!|not evaluated)/);
    expect(value("NA()=1/0")).toBe("#N/A");
  });
});
