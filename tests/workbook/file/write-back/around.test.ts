import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openWorkbook, writeBack } from "../../../../src/workbook/index";
import { partsOf, sheetOf } from "../package";
import { patch } from "./sheet-of";

describe("the file around the changed cells", () => {
  const parts = partsOf({
    sheets: ['<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>', "<sheetData/>"],
    strings: "<si><t>a</t></si>",
    parts: {
      "xl/media/image1.png": [strToU8("not packed"), { level: 0 }],
      "xl/calcChain.xml": strToU8("<calcChain/>"),
    },
  });
  const bytes = zipSync(parts, { mtime: new Date(1999, 4, 6), comment: "kept" });

  it("is byte for byte the same when nothing changes", () => {
    expect(Buffer.compare(writeBack(openWorkbook(bytes), []), bytes)).toBe(0);
    expect(Buffer.compare(writeBack(openWorkbook(bytes), [patch("A1", 1)]), bytes)).toBe(0);
  });

  it("keeps order, times, comments and every other part when something does", () => {
    const copy = writeBack(openWorkbook(bytes), [patch("A1", 123456.789)]);
    const [before, after] = [unzipSync(bytes), unzipSync(copy)];
    expect(Object.keys(after)).toEqual(Object.keys(before));
    const changed = Object.keys(before).filter(
      (name) => Buffer.compare(before[name] ?? bytes, after[name] ?? bytes) !== 0,
    );
    expect(changed).toEqual(["xl/worksheets/sheet1.xml"]);
    expect(recordsOf(copy)).toEqual(recordsOf(bytes));
  });

  it("keeps the encoding of a UTF-16 part", () => {
    const text = `\uFEFF<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c><c r="B1" t="str"><f>"é"</f><v>é</v></c></row></sheetData></worksheet>`;
    const part = new Uint8Array(Buffer.from(text, "utf16le"));
    const opened = openWorkbook(sheetOf("", { parts: { "xl/worksheets/sheet1.xml": part } }));
    const written = unzipSync(writeBack(opened, [patch("A1", "ü")]))["xl/worksheets/sheet1.xml"] ?? new Uint8Array();
    expect(Buffer.from(written).toString("utf16le")).toBe(
      text.replace('<c r="A1"><v>1</v>', '<c r="A1" t="inlineStr"><is><t>ü</t></is>'),
    );
  });

  /** Name, time and attributes of each directory record (APPNOTE 4.3.12). */
  function recordsOf(zip: Uint8Array): string[] {
    const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength);
    const found: string[] = [];
    for (let at = view.getUint32(zip.length - 22 + 16, true); view.getUint32(at, true) === 0x02014b50;) {
      const end =
        at + 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
      found.push(
        [view.getUint32(at + 12, true), view.getUint32(at + 38, true), strFromU8(zip.slice(at + 46, end))].join(" "),
      );
      at = end;
    }
    return found;
  }
});
