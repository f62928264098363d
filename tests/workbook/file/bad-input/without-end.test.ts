import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { Archive } from "../../../../src/workbook/file/archive";
import { limits } from "../../../../src/workbook/file/limits";
import { SheetLooksReader } from "../../../../src/workbook/file/appearance/sheet-appearance";
import { shorten } from "../../../../src/workbook/file/problem";
import { ElementCount, XmlPart } from "../../../../src/workbook/file/xml/xml";
import { bookOf, cellOf } from "../book-of";
import { partsOf, sheetOf } from "../package";
import { expectProblem, problemOf } from "./bad-files";

const sheet1 = "xl/worksheets/sheet1.xml";
const withSheet = (text: string): Uint8Array => sheetOf("", { parts: { [sheet1]: strToU8(text) }, level: 1 });

describe("what has no tag for long", () => {
  const long = (unit: string): string => unit.repeat((limits.betweenTags + 70_000) / unit.length);
  it.each([
    ["a comment", `<worksheet><!--${long("- ")}--></worksheet>`],
    ["a section of characters", `<worksheet><![CDATA[${long("] ")}]]></worksheet>`],
    ["a processing instruction", `<worksheet><?x ${long("? ")}?></worksheet>`],
    ["its name", `<worksheet><?${long("x")}?></worksheet>`],
    ["a number", `<worksheet><sheetData><row><c><v>${long("1")}</v></c></row></sheetData></worksheet>`],
    ["blank space", `<worksheet>${long(" ")}</worksheet>`],
    ["blank space behind the root", `<worksheet/>${long(" ")}`],
    ["an attribute", `<worksheet a="${long("a")}"/>`],
    ["the name of an attribute", `<worksheet ${long("a")}="1"/>`],
    ["the name of an element", `<worksheet><${long("a")}/></worksheet>`],
    ["a document type", `<!DOCTYPE ${long("a")}><worksheet/>`],
  ])("%s", (_, text) =>
    expectProblem(
      withSheet(text),
      "too large",
      /^xl\/worksheets\/sheet1\.xml holds more than 262144 characters without a tag/,
    ),
  );

  it("is noticed before the rest is parsed", () => {
    let pieces = 0;
    const part = new XmlPart("a.xml", { open() {}, close() {} });
    part.feedPiece(strToU8("<a><!--"));
    const piece = strToU8("-".padEnd(10_000, " "));
    expect(() => {
      for (; pieces < 10_000; pieces++) part.feedPiece(piece);
    }).toThrow(/without a tag/);
    expect(pieces * piece.length).toBeLessThan(2 * limits.betweenTags);
  });

  it("leaves room for the longest text of a cell, however it is written", () => {
    for (const one of ["&#xFFFD;", "_x000D_", "&quot;"]) {
      const book = bookOf(`<row><c t="str"><v>${one.repeat(32_767)}</v></c></row>`);
      const { value } = cellOf(book, "A1") ?? {};
      expect(typeof value === "string" && value.length).toBe(32_767);
    }
  });
});

describe("a message repeats at most 80 characters of a value", () => {
  const long = "x".repeat(5_000);
  it.each([
    ["a number", '<c r="A1"><v>LONG</v></c>'],
    ["a type", '<c r="A1" t="LONG"><v>1</v></c>'],
    ["an error value", '<c r="A1" t="e"><v>LONG</v></c>'],
    ["a date", '<c r="A1" t="d"><v>LONG</v></c>'],
    ["a truth value", '<c r="A1" t="b"><v>LONG</v></c>'],
    ["a shared string", '<c r="A1" t="s"><v>LONG</v></c>'],
    ["an address", '<c r="LONG"><v>1</v></c>'],
    ["a shared formula", '<c r="A1"><f t="shared" si="LONG"/></c>'],
    ["a kind of formula", '<c r="A1"><f t="LONG"/></c>'],
  ])("%s", (_, cell) => {
    const { message } = problemOf(sheetOf(`<row r="1">${cell.replace("LONG", long)}</row>`));
    expect(message).toMatch(/x{60,79}…/);
    expect(message).not.toMatch(/x{80}/);
  });

  it("the name of an entry, a part or a sheet", () => {
    const parts = partsOf({ sheets: ["<sheetData/>"], sheetNames: [long] });
    const links = strToU8(
      `<Relationships><Relationship Id="r" Type="x/officeDocument" Target="${long}"/></Relationships>`,
    );
    const rels = strToU8("<Relationships/>");
    for (const other of [
      { [`/${long}`]: rels },
      { "_rels/.rels": links, [long]: strToU8("<a>") },
      { "xl/_rels/workbook.xml.rels": rels },
    ])
      expect(problemOf(zipSync({ ...parts, ...other })).message).toMatch(/^.{0,40}x{78,79}….{0,90}$/);
  });

  it("an encoding", () => {
    const { message } = problemOf(withSheet(`<?xml version="1.0" encoding="${long}"?><worksheet/>`));
    expect(message).toMatch(/^xl\/worksheets\/sheet1\.xml declares the encoding x{79}…; parts must be/);
  });

  it("cuts at 80 characters", () => {
    expect(shorten("x".repeat(80))).toBe("x".repeat(80));
    expect(shorten("x".repeat(81))).toBe(`${"x".repeat(79)}…`);
  });
});

describe("elements without end", () => {
  it("of a kind that is remembered", () => {
    const part = `<worksheet>${"<mergeCell/>".repeat(limits.records + 1)}</worksheet>`;
    expectProblem(withSheet(part), "too large", /more than 200000 elements <mergeCell>/);
  });

  it("of a cell, or of ever other names", () => {
    const cells = new ElementCount();
    for (let index = 0; index < limits.elements; index++) cells.describeExcess("c");
    expect(cells.describeExcess("c")).toBe("more than 8000000 elements");
    const names = new ElementCount();
    for (let index = 0; index < limits.records; index++) names.describeExcess(`x${index}`);
    expect(names.describeExcess("x")).toBe("elements of more than 200000 names");
  });

  it("a part that is parsed over and over", () => {
    const archive = new Archive(withSheet(`<worksheet>${" ".repeat(100_000)}</worksheet>`), 250_000);
    const read = (): void => archive.read(sheet1, { open() {}, close() {} });
    read();
    read();
    expect(read).toThrow(/^the parts of the file come to more than 0\.2 MB, each counted as often as it is linked$/);
  });

  it("columns that are described over and over are looked at once", () => {
    const reader = new SheetLooksReader({ cells: [], conditional: [] });
    const part = new XmlPart("a.xml", reader);
    for (const width of ["9", "8"]) reader.open("col", { min: "1", max: "99999", width }, part);
    const { widths } = reader.finish([]);
    expect(widths.size).toBe(limits.columns);
    expect(widths.get(limits.columns - 1)).toBe(9);
  });
});
