import { describe, expect, it } from "vitest";
import { commandLine, runRecalcCommand } from "../../src/cli/recalc/command";
import { parseOptions } from "../../src/cli/shared/parse-options";
import { readSetting } from "../../src/cli/recalc/read-setting";
import { locateSettings } from "../../src/cli/recalc/set-cells";
import { type Book, ErrorValue, evaluateBook, openWorkbook, readInputs, readLabels } from "../../src/workbook/index";
import { packageOf, transitional } from "../workbook/file/package";
import { strToU8 } from "fflate";
import { slow } from "../time-outs";
import { listening } from "./listening";

describe("what --set means", () => {
  it.each([
    ["Sheet!B4=512", "Sheet", 3, 1, 512],
    ["Air leakage!$B$4 = -1.5e-3", "Air leakage", 3, 1, -0.0015],
    ["'O''Neill = house!'!aa10=.5", "O'Neill = house!", 9, 26, 0.5],
    ["S!A1=12%", "S", 0, 0, { share: 0.12 }],
    ["S!A1=true", "S", 0, 0, true],
    ["S!A1=pressurization", "S", 0, 0, "pressurization"],
    ["S!A1=50 Pa", "S", 0, 0, { amount: 50, unit: "Pa", text: "50 Pa" }],
    ["S!A1=50 people", "S", 0, 0, "50 people"],
    ["S!A1=2026-11-24", "S", 0, 0, { day: 46_350 }],
    ["S!A1=24 Nov 2026", "S", 0, 0, { day: 46_350 }],
    ["S!A1=24 November 2026", "S", 0, 0, { day: 46_350 }],
    ["S!A1=12:30", "S", 0, 0, 12.5 / 24],
    ['S!A1="512"', "S", 0, 0, "512"],
    ['S!A1="say ""so"""', "S", 0, 0, 'say "so"'],
    ['S!A1=""', "S", 0, 0, ""],
    ["S!A1=", "S", 0, 0, null],
    ["S!A1=#n/a", "S", 0, 0, new ErrorValue("#N/A")],
  ])("%s", (typed, sheet, row, column, value) => {
    expect(readSetting(typed)).toEqual({ typed, sheet, target: { row, column }, value });
  });

  it.each([
    ["=512", /is not valid/],
    ["Sheet!B4", /is not valid/],
    ["Sheet!B0=1", /B0 is not a cell/],
    ["Sheet!XFE1=1", /XFE1 is not a cell/],
    ["Sheet!A1048577=1", /not a cell/],
    ["Sheet!A1==SUM(B1:B2)", /not formulas/],
    ["Sheet!A1=1,5", /decimal point/],
    ["Sheet!A1=1.234,5", /decimal point/],
    ["Sheet!A1=1 234", /decimal point/],
    ["Sheet!A1=24.11.2026", /decimal point/],
    ["Sheet!A1=24/11/2026", /write the day as 2026-11-24/],
    ["Sheet!A1=2026-02-30", /write the day as 2026-11-24/],
    ["Sheet!A1=1e999", /too large/],
  ])("%s is refused", (typed, words) => expect(() => readSetting(typed)).toThrow(words));
});

const labelsOf = (book: Book) => readLabels(book, evaluateBook(book), () => false);

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
    locateSettings(book, typed.map(readSetting), overFormulas, labelsOf(book), () => true);

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

describe("a cell by its label, an amount with its unit, a day", () => {
  const rows =
    '<row r="1"><c r="A1" t="str"><v>Volume</v></c><c r="B1"><v>300</v></c><c r="C1" t="str"><v>m³</v></c></row>' +
    '<row r="2"><c r="A2" t="str"><v>Temperature indoors</v></c><c r="B2"><v>20</v></c><c r="C2" t="str"><v>°C</v></c></row>' +
    '<row r="3"><c r="A3" t="str"><v>Temperature outdoors</v></c><c r="B3"><v>5</v></c><c r="C3" t="str"><v>°C</v></c></row>' +
    '<row r="4"><c r="A4" t="str"><v>Storeys</v></c><c r="B4"><v>2</v></c></row>' +
    '<row r="5"><c r="A5" t="str"><v>Flow</v></c><c r="B5"><f>B1*2</f><v>600</v></c></row>';
  const open = (start = "") =>
    openWorkbook(packageOf({ sheets: [`<sheetData>${rows}</sheetData>`], workbookStart: start }));
  const locate = (typed: string, opened = open()) => {
    const { book } = opened;
    return locateSettings(book, [readSetting(typed)], false, labelsOf(book), readInputs(opened).isInput)[0];
  };

  it.each([
    ["volume=512", 0, 512],
    ["Sheet1!Volume=512", 0, 512],
    ["temperature  indoors = 21.5", 1, 21.5],
    ["indoors=21", 1, 21],
    ["volume=10594.4 ft³", 0, 10594.4 * 0.3048 ** 3],
    ["temperature outdoors=50 °F", 2, 10],
    ["Sheet1!B1=400 m³", 0, 400],
    ["Sheet1!B4=2026-11-24", 3, 46_350],
  ])("%s", (typed, row, value) => {
    expect(locate(typed)).toMatchObject({ sheet: 0, row, column: 1 });
    expect(locate(typed)?.value).toBeCloseTo(value, 9);
  });

  it("a day in a workbook that counts from 1904", () =>
    expect(locate("Sheet1!B4=2026-11-24", open('<workbookPr date1904="1"/>'))?.value).toBe(46_350 - 1462));

  it.each([
    [
      "temperature=20",
      /several cells have this label: Sheet1!B2 \(temperature indoors\), Sheet1!B3 \(temperature outdoors\)/,
    ],
    ["height=20", /no input that is filled in has the label "height"; name the cell instead/],
    ["flow=20", /no input that is filled in has the label/],
    ["Rooms!volume=20", /no sheet "Rooms"/],
    ["volume=20 Pa", /the cell is in m³, not in a unit like Pa/],
    ["storeys=2 m", /there is no unit beside the cell/],
  ])("%s is refused", (typed, words) => expect(() => locate(typed)).toThrow(words));
});

describe("the report of what --set changes", { timeout: slow }, () => {
  const said = (() => {
    let lines = "";
    return () => {
      if (lines !== "") return lines;
      const { output, heard } = listening();
      const sample = "sample-workbooks/final-test.xlsx";
      runRecalcCommand([sample, "--set", "day of the test=2026-10-17", "--set", "Rooms!D8=14 ft"], output);
      return (lines = heard().out);
    };
  })();

  it("names cells by their labels, days as days", () => {
    expect(said()).toMatch(/Cover!G6 +Day of the test +15 October 2026 +→ +17 October 2026/);
    expect(said()).toMatch(/Rooms!D8 +Kitchen, length, m +3\.95 +→ +4\.2672\n/);
  });

  it("finds a cell by words that stand far to its left", () => {
    const { output, heard } = listening();
    runRecalcCommand(["sample-workbooks/mid-construction.xlsx", "--set", "Internal volume=420"], output);
    expect(heard().out).toMatch(/'House and instruments'!F6 +Internal volume V, .* 418 +→ +420\n/);
  });

  it("begins with the summary, before and after", () => {
    expect(said()).toMatch(/Summary, before → after\n(.*\n)*? +Internal volume.* 362\.1 +→ +366\.2 +m³/);
    expect(said()).toMatch(/Limit of the criterion +0\.6 +1\/h/);
    expect(said().indexOf("Summary")).toBeLessThan(said().indexOf("Changed by --set"));
  });

  it("shows five digits, and more only where a change needs them", () => {
    const figures = [...said().matchAll(/ ([\d.]+) +→ +([\d.]+)$/gm)];
    expect(figures.length).toBeGreaterThan(10);
    const digitsOf = (text = "") => text.replace(/^[0.]+|\./g, "").length;
    for (const [, before = "", after = ""] of figures)
      if (Number(before).toPrecision(5) !== Number(after).toPrecision(5))
        expect(Math.max(digitsOf(before), digitsOf(after)), `${before} → ${after}`).toBeLessThanOrEqual(5);
  });
});
