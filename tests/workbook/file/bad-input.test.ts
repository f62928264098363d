import { deflateSync, strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openWorkbook, WorkbookProblem } from "../../../src/workbook/index";
import { packageOf, partsOf, sheetOf, transitional } from "./package";

/** The problem with which the bytes are refused; an ordinary opening or another error fails the test. */
function problemOf(bytes: Uint8Array): WorkbookProblem {
  try {
    openWorkbook(bytes);
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return problem;
    throw problem;
  }
  throw new Error("the workbook opened");
}

function expectProblem(bytes: Uint8Array, kind: WorkbookProblem["kind"], words: RegExp): void {
  const problem = problemOf(bytes);
  expect(problem.kind).toBe(kind);
  expect(problem.message).toMatch(words);
  expect(problem.message).not.toMatch(/\n/);
}

const sound = sheetOf('<row r="1"><c r="A1"><v>1</v></c></row>');

/** A compound document (MS-CFB) as far as its signature and one stream name go. */
function compound(streamName: string): Uint8Array {
  const bytes = new Uint8Array(2048);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  [...streamName].forEach((letter, index) => (bytes[1024 + index * 2] = letter.charCodeAt(0)));
  return bytes;
}

/** Changes 32-bit fields of the first directory record of the given entry (APPNOTE 4.3.12). */
function withDirectoryField(bytes: Uint8Array, name: string, fields: Record<number, number>): Uint8Array {
  const changed = bytes.slice();
  const view = new DataView(changed.buffer);
  const wanted = strToU8(name);
  for (let at = changed.length - 46; at > 0; at--) {
    if (view.getUint32(at, true) !== 0x02014b50) continue;
    if (wanted.every((byte, index) => changed[at + 46 + index] === byte)) {
      for (const [offset, value] of Object.entries(fields)) view.setUint32(at + Number(offset), value, true);
      return changed;
    }
  }
  throw new Error(`no entry ${name}`);
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

  it.each([
    ["a number that is none", '<c r="A1"><v>1,5</v></c>', /A1 holds "1,5"/],
    ["infinity", '<c r="A1"><v>1e999</v></c>', /A1 holds/],
    ["a missing string", '<c r="A1" t="s"><v>4</v></c>', /shared string 4/],
    ["an unknown error value", '<c r="A1" t="e"><v>#OOPS</v></c>', /#OOPS/],
    ["an unknown type", '<c r="A1" t="z"><v>1</v></c>', /type "z"/],
    ["one cell twice", '<c r="A1"><v>1</v></c><c r="A1"><v>2</v></c>', /A1 is there twice/],
    ["a cell of another row", '<c r="A2"><v>1</v></c>', /stands in row 1/],
    ["a shared formula without its text", '<c r="A1"><f t="shared" si="3"/><v>1</v></c>', /shared formula 3/],
  ])("%s", (_, cell, words) => expectProblem(sheetOf(`<row r="1">${cell}</row>`), "damaged", words));

  it("a row beyond the last", () => expectProblem(sheetOf('<row r="1048577"/>'), "damaged", /1048577/));
});

describe("hostile archives", () => {
  const doctype = '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>';
  it.each([
    [
      "xl/worksheets/sheet1.xml",
      `<?xml version="1.0"?>${doctype}<worksheet><sheetData><row><c><v>&e;</v></c></row></sheetData></worksheet>`,
    ],
    ["xl/workbook.xml", `${doctype}<workbook/>`],
    ["_rels/.rels", `${doctype}<Relationships/>`],
  ])("an external entity in %s", (name, text) => {
    expectProblem(sheetOf("", { parts: { [name]: strToU8(text) } }), "document type", /DOCTYPE/);
  });

  it("entities that multiply", () => {
    const bomb =
      '<!DOCTYPE a [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><worksheet>&b;</worksheet>';
    expectProblem(sheetOf("", { parts: { "xl/worksheets/sheet1.xml": strToU8(bomb) } }), "document type", /DOCTYPE/);
  });

  it.each(["../xl/evil.xml", "xl/../../evil.xml", "/etc/evil.xml", "C:\\evil.xml", "..\\evil.xml"])(
    "the entry name %s",
    (name) => {
      expectProblem(
        zipSync({ ...partsOf({ sheets: ["<sheetData/>"] }), [name]: strToU8("x") }),
        "hostile name",
        /outside/,
      );
    },
  );

  it("an entry that is there twice, in whatever letters", () => {
    const parts = partsOf({ sheets: ["<sheetData/>"] });
    expectProblem(zipSync({ ...parts, "XL/Worksheets/Sheet1.xml": strToU8("<worksheet/>") }), "hostile name", /twice/);
  });

  it("entries that share their bytes", () => {
    const bytes = packageOf({ sheets: ["<sheetData/>", "<sheetData/>"] });
    const view = new DataView(bytes.buffer);
    const text = Buffer.from(bytes).toString("latin1");
    const record = text.lastIndexOf("xl/worksheets/sheet2.xml") - 46;
    const first = text.lastIndexOf("xl/worksheets/sheet1.xml") - 46;
    view.setUint32(record + 42, view.getUint32(first + 42, true), true);
    expectProblem(bytes, "zip bomb", /overlaps/);
  });

  it("a part that declares more than is read", () => {
    const bytes = withDirectoryField(sound, "xl/worksheets/sheet1.xml", { 24: 3_000_000_000 });
    expectProblem(bytes, "zip bomb", /sheet1\.xml unpacks to 2861 MB/);
  });

  it("a part that unpacks to more than it declares, without unpacking it all", () => {
    const sheet = new Uint8Array(120_000_000).fill(32);
    const bytes = sheetOf("", { parts: { "xl/worksheets/sheet1.xml": sheet }, level: 1 });
    const before = process.memoryUsage().arrayBuffers;
    expectProblem(withDirectoryField(bytes, "xl/worksheets/sheet1.xml", { 24: 1000 }), "zip bomb", /more than/);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(60_000_000);
  });

  it("many parts that are large together", () => {
    const fields = { 24: 100_000_000 };
    const names = [
      "xl/worksheets/sheet1.xml",
      "xl/workbook.xml",
      "_rels/.rels",
      "[Content_Types].xml",
      "xl/_rels/workbook.xml.rels",
    ];
    const sheets = packageOf({ sheets: ["<sheetData/>", "<sheetData/>"] });
    const bytes = [...names, "xl/worksheets/sheet2.xml"].reduce(
      (so, name) => withDirectoryField(so, name, fields),
      sheets,
    );
    expectProblem(bytes, "zip bomb", /the file unpacks to 572 MB/);
  });

  it("elements nested without end", () => {
    const part = strToU8(`<worksheet>${"<a>".repeat(100_000)}`);
    expectProblem(sheetOf("", { parts: { "xl/worksheets/sheet1.xml": part } }), "broken XML", /nested/);
  });

  it("a long formula shared by many cells", () => {
    const text = `"${"a".repeat(8_000)}"&amp;A1`;
    const cell = (row: number): string => `<f t="shared" si="0"${row === 1 ? ` ref="B1:B9999">${text}</f>` : "/>"}`;
    const rows = Array.from(
      { length: 9_999 },
      (_, row) => `<row r="${row + 1}"><c r="B${row + 1}">${cell(row + 1)}</c></row>`,
    );
    expectProblem(sheetOf(rows.join("")), "too large", /formulas have more than 50000000 characters/);
  });

  it("column records that cover all columns over and over, or none, cost nothing", () => {
    const columns = '<col min="-900000000" max="16384" hidden="1"/><col min="1" max="16384" hidden="1"/>'.repeat(
      20_000,
    );
    const started = performance.now();
    const [sheet] = openWorkbook(packageOf({ sheets: [`<cols>${columns}</cols><sheetData/>`] })).book.sheets;
    expect(sheet?.hiddenColumns.size).toBe(16_384);
    expect(performance.now() - started).toBeLessThan(10_000);
  });

  it("attributes without end", () => {
    const attributes = Array.from({ length: 5_000 }, (_, index) => `a${index}="1"`).join(" ");
    expectProblem(sheetOf(`<row ${attributes}/>`), "broken XML", /attributes/);
  });
});

describe("all rows of a sheet", () => {
  const rows = (cell: (row: number) => string): Uint8Array => {
    const pieces: string[] = [];
    for (let row = 1; row <= 1_048_576; row++) pieces.push(`<row r="${row}" s="3" customFormat="1">${cell(row)}</row>`);
    return strToU8(`<worksheet><sheetData>${pieces.join("")}</sheetData></worksheet>`);
  };

  it("1 048 576 rows that hold only styles open, and cost no cells", () => {
    const bytes = sheetOf("", {
      parts: { "xl/worksheets/sheet1.xml": rows((row) => `<c r="A${row}" s="3"/>`) },
      level: 1,
    });
    const started = performance.now();
    expect(openWorkbook(bytes).book.sheets[0]?.cells.size).toBe(0);
    expect(performance.now() - started).toBeLessThan(30_000);
  });

  it("more filled cells than are read are refused", () => {
    const part = rows((row) => `<c r="A${row}"><v>1</v></c><c r="B${row}"><v>1</v></c>`);
    const started = performance.now();
    expectProblem(
      sheetOf("", { parts: { "xl/worksheets/sheet1.xml": part }, level: 1 }),
      "too large",
      /1200000 filled cells/,
    );
    expect(performance.now() - started).toBeLessThan(30_000);
  });
});

it("deflate data that cannot be unpacked is named", () => {
  const junk = deflateSync(strToU8("<a/>"));
  expect(junk.length).toBeGreaterThan(0);
  const bytes = sound.slice();
  const at = Buffer.from(bytes).indexOf("xl/worksheets/sheet1.xml") + "xl/worksheets/sheet1.xml".length;
  bytes[at] = 0xff;
  expectProblem(bytes, "damaged", /sheet1\.xml is damaged/);
});
