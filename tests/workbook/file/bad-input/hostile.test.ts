import { strToU8, zipSync } from "fflate";
import { describe, expect, it, vi } from "vitest";
import { limits } from "../../../../src/workbook/file/limits";
import { SheetFrame } from "../../../../src/workbook/file/sheet/sheet";
import { openWorkbook } from "../../../../src/workbook/index";
import { packageOf, partsOf, sheetOf } from "../package";
import { expectProblem, problemOf, sound, withDirectoryField } from "./bad-files";
import { slow } from "../../../time-outs";

describe("hostile archives", { timeout: slow }, () => {
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

  it("column records that cover all columns over and over, or begin before the first: each column is looked at once", () => {
    const frame = new SheetFrame();
    const hide = vi.spyOn(frame.hiddenColumns, "add");
    for (const min of ["-900", "1", "-900", "1"]) frame.open("col", { min, max: "99999", hidden: "1" });
    expect(hide).toHaveBeenCalledTimes(16_384);
    expect(frame.hiddenColumns.size).toBe(16_384);
  });

  it("attributes without end", () => {
    const attributes = Array.from({ length: 5_000 }, (_, index) => `a${index}="1"`).join(" ");
    expectProblem(sheetOf(`<row ${attributes}/>`), "broken XML", /attributes/);
  });
});

describe("the number of cells", { timeout: slow }, () => {
  const sheet = (rows: string): Uint8Array =>
    sheetOf("", { parts: { "xl/worksheets/sheet1.xml": strToU8(`<worksheet><sheetData>${rows}`) }, level: 1 });
  const rows = (count: number, cell: (row: number) => string): string =>
    Array.from({ length: count }, (_, row) => `<row r="${row + 1}" s="3">${cell(row + 1)}</row>`).join("");
  const end = "</sheetData></worksheet>";

  it("leaves out cells that hold only styles", () => {
    const styled = sheet(rows(1_000, (row) => `<c r="A${row}" s="3"/>`) + end);
    expect(openWorkbook(styled, { mostCells: 100 }).book.sheets[0]?.cells.size).toBe(0);
  });

  it("stops the reading: what lies behind the first cell too many is not looked at", () => {
    const brokenBehind = sheet(`${rows(101, (row) => `<c r="A${row}"><v>1</v></c>`)}<row><c></row>`);
    expect(problemOf(brokenBehind, 100)).toMatchObject({
      kind: "too large",
      message: "the workbook has more than 100 filled cells",
    });
    expect(problemOf(brokenBehind, 101).kind).toBe("broken XML");
  });

  it("is at most 1 200 000 in all sheets together", () => {
    const part = strToU8(`<worksheet><sheetData>${`<row>${"<c><v>1</v></c>".repeat(15_000)}</row>`.repeat(40)}${end}`);
    const one = strToU8(`<worksheet><sheetData><row><c><v>1</v></c></row>${end}`);
    const parts = Object.fromEntries(
      [part, part, one].map((xml, index) => [`xl/worksheets/sheet${index + 1}.xml`, xml]),
    );
    expectProblem(packageOf({ sheets: ["", "", ""], parts, level: 1 }), "too large", /more than 1200000 filled cells/);
  });

  it("leaves room for a value in every row of a sheet", () => {
    const longest = '<row r="1048576"><c r="A1048576" s="99"><v>-1.2345678901234567E-300</v></c></row>'.length;
    expect(limits.rows * longest).toBeLessThan(limits.part);
    expect(limits.rows).toBeLessThan(limits.cells);
    const last = '<c r="A1048576"><v>1</v></c>';
    const cells = openWorkbook(sheet(`${"<row/>".repeat(1_048_575)}<row>${last}</row>${end}`)).book.sheets[0]?.cells;
    expect([...(cells?.values() ?? [])]).toMatchObject([{ row: 1_048_575, value: 1 }]);
  });
});
