import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { packageOf, sheetOf } from "../workbook/file/package";
import { listening } from "./listening";

const folder = mkdtempSync(join(tmpdir(), "recalc-new-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function recalc(...given: string[]): { code: number; out: string; err: string } {
  const { output, heard } = listening();
  const code = runRecalcCommand(given, output);
  return { code, ...heard() };
}

function file(name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

const cell = (address: string, formula: string, stored: string, type = ""): string =>
  `<c r="${address}"${type === "" ? "" : ` t="${type}"`}><f>${formula}</f><v>${stored}</v></c>`;

describe("a copy with cells that could not be evaluated", () => {
  const source = file(
    "old-pass.xlsx",
    sheetOf(
      `<row r="1">${cell("A1", "B1&amp;&quot;&quot;", "PASS", "str")}${cell("B1", "NOSUCHFUNCTION(1)", "1")}</row>`,
    ),
  );
  const target = join(folder, "old-pass-copy.xlsx");

  it("is not written: one line with the first of them, exit code 2", () => {
    const { code, err } = recalc(source, "--out", target);
    expect(code).toBe(2);
    expect(err).toMatch(
      /^recalc: no copy written: 2 formula cells could not be evaluated \(the first: Sheet1!B1: .*NOSUCH/,
    );
    expect(existsSync(target)).toBe(false);
  });

  it("is written only when asked for by name, and the exit code stays 2", () => {
    const { code, out } = recalc(source, "--out", target, "--keep-old-values");
    expect(code).toBe(2);
    expect(out).toMatch(
      /In the copy, cells that were not evaluated keep their stored values, which may be out of date/,
    );
    expect(existsSync(target)).toBe(true);
    expect(recalc(source, "--keep-old-values").err).toMatch(/goes with --out/);
  });
});

describe("new readings typed without Excel", () => {
  const rows = Array.from(
    { length: 42 },
    (_, row) => `<row r="${row + 2}">${cell(`A${row + 2}`, `$A$1*${row}+1`, "0")}</row>`,
  );
  const source = file("typed.xlsx", sheetOf(`<row r="1"><c r="A1"><v>7</v></c></row>${rows.join("")}`));

  it("without --out: thirty lines and how many more, all with --list; exit code 1", () => {
    const { code, out } = recalc(source);
    expect(code).toBe(1);
    expect(out.match(/stored 0/g)).toHaveLength(30);
    expect(out).toContain("… and 12 more (--list shows all)");
    expect(recalc(source, "--list").out.match(/stored 0/g)).toHaveLength(42);
  });

  it("with --out: a count, exit code 0, and a copy that agrees with itself", () => {
    const target = join(folder, "typed-copy.xlsx");
    const { code, out } = recalc(source, "--out", target);
    expect(code).toBe(0);
    expect(out).toContain("42 cells recalculated, 0 errors (--list shows them).");
    expect(out).not.toMatch(/stored 0/);
    expect(recalc(target)).toMatchObject({ code: 0, err: "" });
    expect(recalc(source, "--out", target, "--overwrite", "--list").out.match(/stored 0/g)).toHaveLength(42);
  });

  it("with --out and error values where there were none: exit code 1; where they were before: 0", () => {
    const target = join(folder, "fails-copy.xlsx");
    const fails = file("fails.xlsx", sheetOf(`<row r="1">${cell("A1", "1/0", "5")}${cell("B1", "A1+1", "6")}</row>`));
    expect(recalc(fails, "--out", target)).toMatchObject({
      code: 1,
      out: expect.stringContaining("2 cells recalculated, 2 errors (") as string,
    });
    expect(recalc(target, "--out", join(folder, "fails-again.xlsx")).code).toBe(0);
  });
});

describe("where errors begin", () => {
  const humid = '_xldudf_STILLAIR_AIRDENSITY(20,,B1,"SI")';
  const source = file(
    "errors.xlsx",
    sheetOf(
      '<row r="1"><c r="B1"><v>50</v></c></row>' +
        `<row r="2">${cell("A2", humid, "#VALUE!", "e")}${cell("B2", "A2*2", "#VALUE!", "e")}${cell("C2", "1/0", "#DIV/0!", "e")}</row>` +
        `<row r="3">${cell("A3", "_xldudf_STILLAIR_BASELINEPRESSURE(B9:B10)", "#N/A", "e")}${cell("B3", "NA()", "#N/A", "e")}</row>` +
        '<row r="4"><c r="A4" t="e"><v>#REF!</v></c></row>' +
        `<row r="5">${cell("A5", "IF(A4=1,1,NA())", "#REF!", "e")}${cell("B5", "IF(COUNT(C2)=0,NA(),1)", "#N/A", "e")}</row>`,
    ),
  );

  it("one line a cell although all stored values are right; what is passed on is only counted", () => {
    const { code, out } = recalc(source);
    expect(code).toBe(0);
    const lines = out.split("\n").map((line) => line.trim());
    const start = lines.findIndex((line) => line.startsWith("Where errors originate"));
    expect(lines.slice(start, start + 6)).toEqual([
      "Where errors originate: 4 cells; 6 computed cells with an error in total",
      "Sheet1!A4: #REF! is in the cell itself",
      expect.stringMatching(/^Sheet1!A2: relative_humidity: .*\(got 50\)$/) as string,
      "Sheet1!C2: #DIV/0! originates in =1/0",
      expect.stringMatching(/^Sheet1!A3: waiting for input: /) as string,
      "Deliberate #N/A, from NA() in a formula: 1 cell (Sheet1!B3)",
    ]);
    expect(lines.indexOf("All computed values equal the stored ones.")).toBeGreaterThan(start);
  });

  it("JSON lists the same", () => {
    const [workbook] = (JSON.parse(recalc(source, "--json").out) as { workbooks: [{ errors: { origins: object[] } }] })
      .workbooks;
    expect(workbook.errors).toMatchObject({ cells: 6, new: 0 });
    expect(workbook.errors.origins).toContainEqual({
      cell: "Sheet1!C2",
      error: "#DIV/0!",
      kind: "error",
      alsoFilled: 0,
    });
  });

  it("an array that fails as a whole is one line, and the blanks that it leaves begin nothing", () => {
    const array = `<c r="A1"><f t="array" ref="A1:A3">1/{1;0;0}</f><v>1</v></c>`;
    const { out } = recalc(
      file("array.xlsx", sheetOf(`<row r="1">${array}${cell("B1", "A3+1", "#DIV/0!", "e")}</row>`)),
    );
    expect(out).toMatch(
      /originate: 1 cell; 3 computed[^\n]*\n\s+Sheet1!A2: #DIV\/0!.*, and 1 more cell of its array\n/,
    );
  });
});

describe("--set where Excel would not let a person type", () => {
  const rule = (type: string, sqref: string, rest: string): string =>
    `<dataValidation type="${type}" sqref="${sqref}" allowBlank="1" showErrorMessage="1" ${rest}</dataValidation>`;
  const source = file(
    "form.xlsx",
    packageOf({
      sheets: [
        '<cols><col min="3" max="3" style="1"/></cols><sheetData><row r="1"><c r="A1" s="1"><v>1</v></c><c r="B1"><v>2</v></c></row>' +
          '<row r="2" s="1" customFormat="1"/></sheetData><sheetProtection sheet="1"/><dataValidations>' +
          rule("list", "A1 C1", '><formula1>"ground,upper"</formula1>') +
          rule("decimal", "A2:B3", 'error="From 0 to 10."><formula1>0</formula1><formula2>10</formula2>') +
          rule("whole", "C3", 'operator="greaterThan"><formula1>4</formula1>') +
          rule("decimal", "C4", 'errorStyle="warning"><formula1>0</formula1><formula2>1</formula2>') +
          rule("decimal", "C5", "><formula1>$B$1</formula1><formula2>9</formula2>") +
          "</dataValidations>",
        '<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>',
      ],
      sheetNames: ["Form", "Free"],
      styles: '<cellXfs><xf numFmtId="0"/><xf numFmtId="0"><protection locked="0"/></xf></cellXfs>',
    }),
  );
  const cautions = (typed: string): string[] => {
    const { out } = recalc(source, "--set", typed, "--json");
    return (JSON.parse(out) as { workbooks: [{ cautions: string[] }] }).workbooks[0].cautions;
  };

  it.each([
    ["Form!B1=3", /^--set "Form!B1=3": the cell is locked/],
    ["Form!B9=3", /locked/],
    ["Form!A1=cellar", /rejects "cellar"; it accepts one of ground, upper/],
    ["Form!A2=11", /rejects 11; it accepts a number from 0 to 10 \("From 0 to 10\."\)/],
    ["Form!A2=ten", /rejects "ten"/],
    ["Form!C3=4", /a whole number above 4/],
    ["Form!C3=5.5", /a whole number above 4/],
  ])("%s is cautioned against", (typed, words) => expect(cautions(typed)).toEqual([expect.stringMatching(words)]));

  it.each([
    "Form!A1=upper",
    "Form!A1=",
    "Form!A2=10",
    "Form!B2=0",
    "Form!C3=5",
    "Form!C4=7",
    "Form!C5=99",
    "Free!A1=3",
    "Free!B7=3",
  ])("%s is not", (typed) => expect(cautions(typed)).toEqual([]));

  it("a value in two cautions is set all the same", () => {
    expect(cautions("Form!B3=11")).toHaveLength(2);
    expect(recalc(source, "--set", "Form!B3=11")).toMatchObject({
      code: 0,
      out: expect.stringContaining("Caution: --set") as string,
    });
  });
});
