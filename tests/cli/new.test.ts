import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { infiltrationFlow } from "../../src/functions/index";
import { settingsReference } from "../../src/functions/settings/reference";
import { newCommand } from "../../src/cli/new/command";
import { type Book, buildCellKey, type CellValue, openWorkbook } from "../../src/workbook/index";
import { namedCell } from "../samples/look-up";
import { sheetOf } from "../workbook/file/package";
import { slow } from "../time-outs";
import { listening } from "./listening";

const forms = pathToFileURL("sample-workbooks/blank/");
const folder = mkdtempSync(join(tmpdir(), "new-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const out = join(folder, "ash-lodge.xlsx");
beforeEach(() => rmSync(out, { force: true }));

function make(...given: string[]): { code: number; out: string; err: string } {
  const { output, heard } = listening();
  const code = newCommand(given, output, forms);
  return { code, ...heard() };
}

const read = (path: string): Book => openWorkbook(new Uint8Array(readFileSync(path))).book;

/** The cells of a sheet's area, row by row; rows and columns are counted from 0. */
function cells(book: Book, sheet: string, [top, left, bottom, right]: readonly number[]): CellValue[] {
  const found = book.sheets.find(({ name }) => name === sheet)?.cells;
  const values: CellValue[] = [];
  for (let row = top!; row <= bottom!; row++)
    for (let column = left!; column <= right!; column++)
      values.push(found?.get(buildCellKey(row, column))?.value ?? null);
  return values;
}

/** The cells of a name, row by row. */
function named(book: Book, wanted: string): CellValue[] {
  const { sheet, top, left, bottom, right } = namedCell(book, wanted);
  return cells(book, book.sheets[sheet]?.name ?? "", [top, left, bottom, right]);
}

const instruments = [12, 2, 18, 7] as const;
const openings = [22, 1, 29, 6] as const;
const firmFacts = [5, 2, 8, 2] as const;

it("makes a blank form, byte for byte the one beside the sample", { timeout: slow }, () => {
  const { code, out: said } = make("final-test", "--out", out);
  expect(code).toBe(0);
  expect(said).toContain("of no firm yet");
  expect(readFileSync(out)).toEqual(readFileSync("sample-workbooks/blank/final-test.xlsx"));
  expect(cells(read(out), "Firm", firmFacts)).toEqual([null, null, null, null]);
});

it("takes over a firm with its instruments, and nothing of its last job", { timeout: slow }, () => {
  const sample = "sample-workbooks/final-test.xlsx";
  expect(make("final-test", "--firm", sample, "--out", out).code).toBe(0);
  const [made, firm] = [read(out), read(sample)];
  for (const area of [firmFacts, instruments, openings])
    expect(cells(made, "Firm", area)).toEqual(cells(firm, "Firm", area));
  expect(cells(made, "Firm", [5, 2, 5, 2])).toEqual(["Quince & Plover"]);
  for (const [sheet, area] of [
    ["Cover", [5, 2, 9, 2]],
    ["Rooms", [6, 1, 23, 4]],
    ["Depressurization", [23, 2, 34, 5]],
    ["Depressurization 2", [15, 3, 16, 12]],
  ] as const)
    expect(new Set(cells(made, sheet, area).filter((value) => value !== null)), sheet).toEqual(new Set());
  // The head of every sheet follows.
  expect(cells(made, "Pressurization", [0, 1, 0, 1])).toEqual(["QUINCE & PLOVER   building physics"]);
});

it("takes over what another form of the firm has in common with it", { timeout: slow }, () => {
  expect(make("mid-construction", "--firm", "sample-workbooks/final-test.xlsx", "--out", out).code).toBe(0);
  const [firm] = read(out).names.filter(({ name }) => name === "Firm");
  expect(firm?.text).toBe("Overview!$C$10");
  expect(cells(read(out), "Overview", [9, 2, 10, 2])).toEqual(["Quince & Plover", "Building physics"]);
});

it.each(["test-day", "envelope-what-if"])(
  "gives %s the openings of the firm’s device and the certificates",
  { timeout: slow },
  (form) => {
    const sample = "sample-workbooks/final-test.xlsx";
    expect(make(form, "--firm", sample, "--out", out).code).toBe(0);
    const [made, firm] = [read(out), read(sample)];
    for (const name of ["OpeningNames", "OpeningCoefficients", "OpeningExponents", "OpeningFrom", "OpeningTo"]) {
      const [ours, theirs] = [named(made, name), named(firm, name)];
      expect(ours.length, name).toBeGreaterThan(4);
      expect(theirs.filter((value) => value !== null).length, name).toBeGreaterThan(2);
      expect(ours, name).toEqual(theirs.slice(0, ours.length));
    }
    if (form !== "test-day") return;
    const gauges = named(firm, "GaugeUntil") as number[];
    expect(gauges).toHaveLength(2);
    expect(named(made, "GaugeUntil")).toEqual([Math.min(...gauges)]);
    expect(named(made, "FanUntil")).toEqual(named(firm, "FanUntil"));
  },
);

// 1 ft = 0.3048 m and 1 lb = 0.45359237 kg, exactly: NIST SP 811 (2008), appendix B.
it.each([
  ["final-test-ip", "final-test.xlsx", 60 / (0.3048 ** 3 * 3600), 0.3048 ** 3 / 0.45359237],
  ["final-test", "final-test-ip.xlsx", (0.3048 ** 3 * 3600) / 60, 0.45359237 / 0.3048 ** 3],
])("gives %s the flow device of %s in the form’s own units", { timeout: slow }, (form, from, flow, density) => {
  const source = `sample-workbooks/${from}`;
  expect(make(form, "--firm", source, "--out", out).code).toBe(0);
  const [made, firm] = [read(out), read(source)];
  for (const [name, factor] of [
    ["OpeningCoefficients", flow],
    ["CalibrationDensity", density],
    ["OpeningExponents", 1],
    ["OpeningTo", 1],
    ["OpeningUncertainties", 1],
  ] as const) {
    const expected = named(firm, name).filter((value) => typeof value === "number");
    const taken = named(made, name).filter((value) => typeof value === "number");
    expect(taken.length, name).toBe(expected.length);
    expect(taken.length, name).toBeGreaterThan(0);
    // To the fifteen digits that a cell shows.
    taken.forEach((value, row) => expect(value / expected[row]! / factor, name).toBeCloseTo(1, 13));
  }
  expect(named(made, "FirmUnits")).toEqual(named(read(`sample-workbooks/blank/${form}.xlsx`), "FirmUnits"));
});

it("answers ? in the place of the form with what each form is for, and writes nothing", () => {
  const { code, out: said } = make("?");
  expect(code).toBe(0);
  expect(said).toMatch(
    /^final-test +Airtightness test: Fan pressurization test by ISO 9972, final test at completion$/m,
  );
  expect(said).toMatch(/^final-test-ip .*, in feet, cfm and °F$/m);
  expect(said.trimEnd().split("\n")).toHaveLength(readdirSync("sample-workbooks/blank").length);
});

describe("--settings-sheet", { timeout: slow }, () => {
  it("adds every label with a cell for its value, which a function takes as they stand", () => {
    const { code, out: said } = make("final-test-ip", "--settings-sheet", "--out", out);
    expect(code).toBe(0);
    expect(said).toContain("with every setting on the sheet Settings");
    const [made, form] = [read(out), read("sample-workbooks/blank/final-test-ip.xlsx")];
    expect(made.sheets.slice(0, -1).map(({ name }) => name)).toEqual(form.sheets.map(({ name }) => name));
    expect(made.sheets.at(-1)?.name).toBe("Settings");
    const lines = settingsReference.length;
    expect(cells(made, "Settings", [4, 1, 3 + lines, 1])).toEqual(settingsReference.map(({ label }) => label));
    expect(cells(made, "Settings", [4, 3, 4, 5])).toEqual(["ft³", "none", "16950"]);
    const range = settingsReference.map((_, row) => cells(made, "Settings", [4 + row, 1, 4 + row, 2]));
    expect(range.filter(([, value]) => value !== null)).toEqual([["units", "IP"]]);
    const flow = infiltrationFlow("n50/20", [[600]], undefined, undefined, undefined, range);
    expect(flow).toEqual(infiltrationFlow("n50/20", [[600]], undefined, undefined, undefined, [["units", "IP"]]));
  });

  it("leaves the form as it is: every stored result is right", () => {
    make("final-test", "--settings-sheet", "--out", out);
    const { output, heard } = listening();
    expect(runRecalcCommand([out], output)).toBe(0);
    expect(heard().out).toContain("All computed values equal the stored ones.");
  });
});

describe("refuses with one sentence, and writes nothing,", { timeout: slow }, () => {
  const notOurs = join(folder, "other.xlsx");
  writeFileSync(notOurs, sheetOf('<row r="1"><c r="A1"><v>1</v></c></row>'));
  const noWorkbook = join(folder, "notes.xlsx");
  writeFileSync(noWorkbook, "a note");
  const there = join(folder, "there.xlsx");
  writeFileSync(there, "kept");

  it.each([
    [
      "an unknown form",
      ["house", "--out", out],
      /^new: there is no form "house"; there are envelope-what-if, final-test/,
    ],
    ["no form", ["--out", out], /^new: name one form/],
    ["no target", ["final-test"], /^new: --out needs a file name/],
    ["a firm's file that is not there", ["final-test", "--firm", "none.xlsx", "--out", out], /--firm none\.xlsx: /],
    ["one that is no workbook", ["final-test", "--firm", noWorkbook, "--out", out], /--firm .*notes\.xlsx: /],
    ["one that names no firm", ["final-test", "--firm", notOurs, "--out", out], /no firm is named in it/],
    [
      "one whose firm is blank",
      ["final-test", "--firm", "sample-workbooks/blank/final-test.xlsx", "--out", out],
      /no firm is named in it/,
    ],
    ["a target that exists", ["final-test", "--out", there], /there\.xlsx/],
  ] as const)("%s", (_, given, sentence) => {
    const before = readdirSync(folder);
    const { code, err, out: said } = make(...given);
    expect(code).toBe(2);
    expect(err.trim().split("\n")).toHaveLength(1);
    expect(err).toMatch(sentence);
    expect(said).toBe("");
    expect(readdirSync(folder)).toEqual(before);
    expect(existsSync(out)).toBe(false);
    expect(readFileSync(there, "utf8")).toBe("kept");
  });
});
