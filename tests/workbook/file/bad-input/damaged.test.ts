import { deflateSync, strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { partsOf, sheetOf, transitional } from "../package";
import { problemOf, expectProblem, sound, withDirectoryField } from "./bad-files";

/** A compound document (MS-CFB) as far as its signature and one stream name go. */
function compound(streamName: string): Uint8Array {
  const bytes = new Uint8Array(2048);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  [...streamName].forEach((letter, index) => (bytes[1024 + index * 2] = letter.charCodeAt(0)));
  return bytes;
}

describe("what is no .xlsx", () => {
  it.each([
    ["an empty file", new Uint8Array(0), /empty/],
    ["text", strToU8("Name;Value\n1;2\n"), /not a zip/],
    ["a PDF", strToU8("%PDF-1.7"), /not a zip/],
  ])("%s", (_, bytes, words) => expectProblem(bytes, "not a zip", words));

  it("an Excel 97-2003 workbook", () =>
    expectProblem(compound("Workbook"), "legacy or encrypted", /\.xls\); save it as \.xlsx/));
  it("a workbook with a password", () =>
    expectProblem(compound("EncryptedPackage"), "legacy or encrypted", /password/));
  it("a binary workbook", () => {
    const rels = strToU8(
      `<Relationships><Relationship Id="a" Type="${transitional.links}/officeDocument" Target="xl/workbook.bin"/></Relationships>`,
    );
    expectProblem(
      sheetOf("", { parts: { "_rels/.rels": rels, "xl/workbook.bin": new Uint8Array(9) } }),
      "binary workbook",
      /\.xlsb/,
    );
  });
  it("an OpenDocument sheet", () => {
    expectProblem(zipSync({ mimetype: strToU8("x"), "content.xml": strToU8("<a/>") }), "no workbook", /OpenDocument/);
  });
  it("a zip with something else", () =>
    expectProblem(zipSync({ "a.txt": strToU8("a") }), "no workbook", /without a workbook part/));
  it("a missing workbook part", () => {
    const parts = partsOf({ sheets: ["<sheetData/>"] });
    delete parts["xl/workbook.xml"];
    expectProblem(zipSync(parts), "no workbook", /without a workbook part/);
  });
  it("a missing sheet part", () => {
    const parts = partsOf({ sheets: ["<sheetData/>"] });
    delete parts["xl/worksheets/sheet1.xml"];
    expectProblem(zipSync(parts), "damaged", /sheet1\.xml is missing/);
  });
});

describe("damaged archives", () => {
  it("cut short anywhere", () => {
    for (const part of [0.05, 0.3, 0.6, 0.9, 0.99]) {
      expect(problemOf(sound.slice(0, Math.floor(sound.length * part))).kind).toBe("damaged");
    }
  });

  it("any flipped bit of a part that is read is noticed, or leaves the contents as they were", () => {
    const bytes = sheetOf('<row r="1"><c r="A1"><v>1234567</v></c></row>', { level: 0 });
    const at = Buffer.from(bytes).indexOf("1234567");
    const flipped = bytes.slice();
    flipped[at + 3] = (flipped[at + 3] ?? 0) ^ 1;
    expectProblem(flipped, "damaged", /checksum/);
  });

  it("an encrypted entry", () => {
    expectProblem(withDirectoryField(sound, "xl/workbook.xml", { 8: 1 }), "encrypted", /password/);
  });

  it("broken XML, with its place", () => {
    const parts = { "xl/worksheets/sheet1.xml": strToU8("<worksheet>\n<sheetData><row></sheetData></worksheet>") };
    expectProblem(sheetOf("", { parts }), "broken XML", /sheet1\.xml is broken XML at line 2/);
    expectProblem(
      sheetOf("", { parts: { "xl/workbook.xml": strToU8("<workbook><sheets>") } }),
      "broken XML",
      /workbook\.xml/,
    );
  });

  it("bytes that are no text", () => {
    const part = strToU8("<worksheet><sheetData/></worksheet>");
    part[12] = 0xff;
    expectProblem(sheetOf("", { parts: { "xl/worksheets/sheet1.xml": part } }), "broken XML", /UTF-8/);
  });

  const array = (cell: string, range: string): string => `<c r="${cell}"><f t="array" ref="${range}">1</f></c>`;

  it.each([
    ["a number that is none", '<c r="A1"><v>1,5</v></c>', /A1 holds "1,5"/],
    ["infinity", '<c r="A1"><v>1e999</v></c>', /A1 holds/],
    ["a missing string", '<c r="A1" t="s"><v>4</v></c>', /shared string 4/],
    ["an unknown error value", '<c r="A1" t="e"><v>#OOPS</v></c>', /#OOPS/],
    ["an unknown type", '<c r="A1" t="z"><v>1</v></c>', /type "z"/],
    ["one cell twice", '<c r="A1"><v>1</v></c><c r="A1"><v>2</v></c>', /A1 is there twice/],
    ["an array formula beside its range", array("A1", "B1:C1"), /A1 has an array formula for B1:C1, which does not/],
    [
      "an array formula within another",
      array("A1", "A1:C1") + array("B1", "B1"),
      /formulas of A1 and B1 fill the same/,
    ],
    ["a formula within an array", array("A1", "A1:C1") + '<c r="C1"><f>1</f></c>', /formulas of A1 and C1 fill/],
    ["an array formula that reaches into the next", array("A1", "A1:B2") + array("B1", "B1:C1"), /of A1 and B1 fill/],
    ["a cell of another row", '<c r="A2"><v>1</v></c>', /"A2" is in row 1/],
    ["a shared formula without its text", '<c r="A1"><f t="shared" si="3"/><v>1</v></c>', /shared formula 3/],
  ])("%s", (_, cell, words) => expectProblem(sheetOf(`<row r="1">${cell}</row>`), "damaged", words));

  it("a row beyond the last", () => expectProblem(sheetOf('<row r="1048577"/>'), "damaged", /1048577/));
});

it("deflate data that cannot be unpacked is named", () => {
  const junk = deflateSync(strToU8("<a/>"));
  expect(junk.length).toBeGreaterThan(0);
  const bytes = sound.slice();
  const at = Buffer.from(bytes).indexOf("xl/worksheets/sheet1.xml") + "xl/worksheets/sheet1.xml".length;
  bytes[at] = 0xff;
  expectProblem(bytes, "damaged", /sheet1\.xml is damaged/);
});
