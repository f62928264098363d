import { describe, expect, it } from "vitest";
import type { CellValue } from "../../../src/workbook/model";
import { value } from "./book";

describe("TEXT", () => {
  it.each<[formula: string, expected: CellValue]>([
    ['TEXT(1.5,"[h]:mm")', "36:00"],
    ['TEXT(1.5,"[h]:mm:ss")', "36:00:00"],
    ['TEXT(0.1,"[mm]:ss")', "144:00"],
    ['TEXT(0.25,"h:mm AM/PM")', "6:00 AM"],
    ['TEXT(0.5,"hh"" h ""mm")', "12 h 00"],
    ['TEXT(45000.5,"[$-409]d mmm yyyy")', "15 Mar 2023"],
    ['TEXT(45000.5,"[$-en-GB]d mmm yyyy, hh:mm")', "15 Mar 2023, 12:00"],
    ['TEXT(-0.3,"0")', "0"],
    ['TEXT(1/3,"@")', "0.333333333333333"],
  ])("=%s is %s", (formula, expected) => {
    expect(value(formula)).toBe(expected);
  });

  it("counts elapsed hours in a workbook that counts from 1904 too", () => {
    expect(value('TEXT(1.5,"[h]:mm")', {}, { date1904: true })).toBe("36:00");
    expect(value('TEXT(-0.5,"h:mm")', {}, { date1904: true })).toMatch(/^not evaluated: a negative time/);
    // Day 100 is 10 April 1904 (0 is 1 January), a Sunday.
    expect(value('TEXT(100,"ddd d mmm yyyy")', {}, { date1904: true })).toBe("Sun 10 Apr 1904");
    expect(value('TEXT(DATE(2024,2,29),"yyyy-mm-dd")', {}, { date1904: true })).toBe("2024-02-29");
    expect(value('TEXT(100,"d [h]")', {}, { date1904: true })).toMatch(/^not evaluated: a date with elapsed time/);
  });

  it.each<[formula: string, reason: string]>([
    ['TEXT(0.1,"mm")', "a date before March 1900 as text"],
    ['TEXT(0.1,"ss:mm")', "a date before March 1900 as text"],
    ['TEXT(1.25,"d hh:mm")', "a date before March 1900 as text"],
    ['TEXT(45000.999999,"yyyy-mm-dd")', "a time less than a second before midnight as text"],
    ['TEXT(45000.0416666,"d h:mm")', "a time less than a second before a full minute as text"],
    ['TEXT(0.0416666,"h:mm")', "a time less than a second before a full minute as text"],
    ['TEXT(9007199254740992,"@")', "a number of 1E+15 or more joined to text: its notation is not certain"],
    ['TEXT(0.99,"# ??/??")', "the number format # ??/?? in TEXT"],
    ['TEXT(12,"0.3")', "the number format 0.3 in TEXT"],
    ['TEXT(45000,"[$-407]d mmm yyyy")', "the number format [$-407]d mmm yyyy in TEXT"],
  ])("refuses %s by name", (formula, reason) => {
    expect(value(formula)).toBe(`not evaluated: ${reason}`);
  });
});
