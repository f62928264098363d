import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../../../src/workbook/index";
import { packageOf, partsOf, sheetOf } from "../package";
import { expectProblem, sound, withDirectoryField } from "./bad-files";

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
