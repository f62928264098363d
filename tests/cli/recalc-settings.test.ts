import { describe, expect, it } from "vitest";
import { commandLine } from "../../src/cli/recalc/command";
import { parseOptions } from "../../src/cli/shared/parse-options";
import { locateSettings, readSetting } from "../../src/cli/recalc/set-cells";
import { ErrorValue, openWorkbook } from "../../src/workbook/index";
import { packageOf, transitional } from "../workbook/file/package";
import { strToU8 } from "fflate";

describe("what --set means", () => {
  it.each([
    ["Sheet!B4=512", "Sheet", 3, 1, 512],
    ["Air leakage!$B$4 = -1.5e-3", "Air leakage", 3, 1, -0.0015],
    ["'O''Neill = house!'!aa10=.5", "O'Neill = house!", 9, 26, 0.5],
    ["S!A1=12%", "S", 0, 0, 0.12],
    ["S!A1=true", "S", 0, 0, true],
    ["S!A1=pressurization", "S", 0, 0, "pressurization"],
    ["S!A1=50 Pa", "S", 0, 0, "50 Pa"],
    ['S!A1="512"', "S", 0, 0, "512"],
    ['S!A1="say ""so"""', "S", 0, 0, 'say "so"'],
    ['S!A1=""', "S", 0, 0, ""],
    ["S!A1=", "S", 0, 0, null],
    ["S!A1=#n/a", "S", 0, 0, new ErrorValue("#N/A")],
  ])("%s", (typed, sheet, row, column, value) => {
    expect(readSetting(typed)).toEqual({ typed, sheet, row, column, value });
  });

  it.each([
    ["B4=512", /is not valid/],
    ["Sheet!B4", /is not valid/],
    ["Sheet!B0=1", /B0 is not a cell/],
    ["Sheet!XFE1=1", /XFE1 is not a cell/],
    ["Sheet!A1048577=1", /not a cell/],
    ["Sheet!A1==SUM(B1:B2)", /not formulas/],
    ["Sheet!A1=1,5", /decimal point/],
    ["Sheet!A1=1.234,5", /decimal point/],
    ["Sheet!A1=1 234", /decimal point/],
    ["Sheet!A1=24.11.2026", /decimal point|serial number/],
    ["Sheet!A1=2026-11-24", /serial number/],
    ["Sheet!A1=12:30", /serial number/],
    ["Sheet!A1=1e999", /too large/],
  ])("%s is refused", (typed, words) => expect(() => readSetting(typed)).toThrow(words));
});

describe("which cells may be set", () => {
  const table = `<table xmlns="${transitional.main}" displayName="Readings" ref="A9:B12"><tableColumns><tableColumn name="p"/><tableColumn name="q"/></tableColumns></table>`;
  const { book } = openWorkbook(
    packageOf({
      sheets: [
        '<sheetData><row r="1"><c r="A1"><f>1+1</f><v>2</v></c><c r="B1"><f t="array" ref="B1:B3">ROW(A1:A3)</f><v>1</v></c></row>' +
          '<row r="2"><c r="B2"><v>2</v></c></row></sheetData><mergeCells><mergeCell ref="D1:E2"/></mergeCells>',
        "<sheetData/>",
      ],
      sheetNames: ["Rooms", "Results"],
      sheetLinks: { 0: `<Relationship Id="t" Type="${transitional.links}/table" Target="/xl/tables/table1.xml"/>` },
      parts: { "xl/tables/table1.xml": strToU8(table) },
    }),
  );
  const locate = (typed: string[], overFormulas = false): unknown =>
    locateSettings(book, typed.map(readSetting), overFormulas);

  it("inputs, blank cells and, if asked for, formulas", () => {
    expect(locate(["results!C7=1", "Rooms!D1=2", "Rooms!A10=3"])).toEqual([
      { sheet: 1, row: 6, column: 2, value: 1 },
      { sheet: 0, row: 0, column: 3, value: 2 },
      { sheet: 0, row: 9, column: 0, value: 3 },
    ]);
    expect(locate(["Rooms!A1=1"], true)).toHaveLength(1);
  });

  it.each([
    [["Room!A1=1"], /no sheet "Room"; the workbook has Rooms, Results/],
    [["Rooms!A1=1"], /A1 holds a formula \(=1\+1\).*--over-formulas/],
    [["Rooms!B2=1"], /B2 is filled by the formula in B1/],
    [["Rooms!E2=1"], /E2 is hidden by the merged cells D1:E2; set D1/],
    [["Rooms!A9=x"], /A9 is a heading of the table Readings/],
    [["Results!A1=1", "results!$a$1=2"], /set twice/],
  ])("%s is refused", (typed, words) => expect(() => locate(typed)).toThrow(words));
});

describe("arguments that do not go together", () => {
  it.each([
    [[], /name a workbook/],
    [["a.xlsx", "--fast"], /Unknown option '--fast'/],
    [["a.xlsx", "--out"], /--out/],
    [["a.xlsx", "--overwrite"], /--overwrite goes with --out/],
    [["a.xlsx", "--over-formulas"], /goes with --set/],
    [["a.xlsx", "--over-formulas", "--set", "A!A1=1", "--out", "b.xlsx"], /lose the formula/],
  ])("%j", (given, words) => expect(() => parseOptions(given, commandLine)).toThrow(words));
});
