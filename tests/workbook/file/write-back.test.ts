import fc from "fast-check";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import {
  cellKey,
  ErrorValue,
  openWorkbook,
  parsePlace,
  writeBack,
  type Area,
  type CellPatch,
  type CellValue,
} from "../../../src/workbook/index";
import { dynamicArrays, partsOf, sheetOf, transitional } from "./package";

function patch(address: string, value: CellValue, array?: Area): CellPatch {
  const place = parsePlace(address);
  if (!place) throw new Error(address);
  return array ? { sheet: 0, ...place, value, array } : { sheet: 0, ...place, value };
}

/** The sheet's own text behind <worksheet …>, after the given cells are changed. */
function patched(inside: string, ...patches: CellPatch[]): string {
  const bytes = sheetOf("", {
    metadata: dynamicArrays,
    parts: { "xl/worksheets/sheet1.xml": strToU8(`<worksheet>${inside}</worksheet>`) },
  });
  const copy = writeBack(openWorkbook(bytes), patches);
  return strFromU8(unzipSync(copy)["xl/worksheets/sheet1.xml"] ?? new Uint8Array()).slice(11, -12);
}

const inRow = (cells: string, ...patches: CellPatch[]): string =>
  /<row r="1">(.*)<\/row>/s.exec(patched(`<sheetData><row r="1">${cells}</row></sheetData>`, ...patches))?.[1] ?? "";

describe("the file that was read", () => {
  it("stays as it is and gives the same copy, be it Node's Buffer or plain bytes", () => {
    const bytes = sheetOf('<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>', {
      metadata: dynamicArrays,
    });
    const buffer = Buffer.from(bytes);
    const opened = openWorkbook(buffer);
    const copies = [writeBack(opened, [patch("A1", 123456.789)]), writeBack(opened, [patch("A1", 123456.789)])];
    expect(new Uint8Array(buffer)).toEqual(bytes);
    for (const copy of copies) expect(copy).toEqual(writeBack(openWorkbook(bytes), [patch("A1", 123456.789)]));
  });
});

describe("the value of a cell", () => {
  it.each<[string, string, CellValue, string]>([
    ["number to number", '<c r="A1" s="2"><v>1</v></c>', 2.5, '<c r="A1" s="2"><v>2.5</v></c>'],
    [
      "number to text as a result",
      '<c r="A1" s="2"><f>B1</f><v>1</v></c>',
      "a<b",
      '<c r="A1" s="2" t="str"><f>B1</f><v>a&lt;b</v></c>',
    ],
    ["text to number as a result", '<c t="str" r="A1"><f>B1</f><v>x</v></c>', -0, '<c r="A1"><f>B1</f><v>0</v></c>'],
    ["to blank text", '<c r="A1"><f>B1</f><v>1</v></c>', "", '<c r="A1" t="str"><f>B1</f><v></v></c>'],
    [
      "to an error",
      '<c r="A1" t="str"><f>B1</f><v>x</v></c>',
      new ErrorValue("#N/A"),
      '<c r="A1" t="e"><f>B1</f><v>#N/A</v></c>',
    ],
    ["to a truth value", "<c r='A1' t='e' ><f>B1</f><v>#N/A</v></c>", true, "<c r='A1' t='b' ><f>B1</f><v>1</v></c>"],
    ["a formula without value", '<c r="A1"><f>B1</f></c>', 3, '<c r="A1"><f>B1</f><v>3</v></c>'],
    ["a formula with an empty value", '<c r="A1"><f>B1</f><v/></c>', 3, '<c r="A1"><f>B1</f><v>3</v></c>'],
    [
      "a shared formula's follower",
      '<c r="A1"><f t="shared" ref="A1:A1" si="0">B1</f><v>1</v></c>',
      3,
      '<c r="A1"><f t="shared" ref="A1:A1" si="0">B1</f><v>3</v></c>',
    ],
    [
      "a shared string to an inline one",
      '<c r="A1" t="b"><v>0</v></c>',
      " a ",
      '<c r="A1" t="inlineStr"><is><t xml:space="preserve"> a </t></is></c>',
    ],
    [
      "an inline string to a number",
      '<c r="A1" t="inlineStr"><is><t>x</t></is></c>',
      1e-7,
      '<c r="A1"><v>1e-7</v></c>',
    ],
    ["a styled blank cell", '<c r="A1" s="4"/>', 512, '<c r="A1" s="4"><v>512</v></c>'],
    [
      "a styled blank cell, with room",
      '<c r="A1" s="4" />',
      "x",
      '<c r="A1" s="4" t="inlineStr" ><is><t>x</t></is></c>',
    ],
    ["an input to blank", '<c r="A1" s="4" t="b"><v>1</v></c>', null, '<c r="A1" s="4"></c>'],
    [
      "a value with a rich form",
      '<c r="A1" t="e" vm="1"><f>B1</f><v>#VALUE!</v></c>',
      5,
      '<c r="A1"><f>B1</f><v>5</v></c>',
    ],
  ])("%s", (_, before, value, after) => {
    expect(inRow(before, patch("A1", value))).toBe(after);
  });

  it("what it already holds is left as it is written", () => {
    const cell = '<c r="A1"><v>1.50E0</v></c>';
    expect(inRow(cell, patch("A1", 1.5))).toBe(cell);
  });

  it("control characters and look-alikes of their escapes survive", () => {
    const text = "a\r\n\u0001_x0041_\uD800";
    const bytes = writeBack(openWorkbook(sheetOf('<row r="1"><c r="A1"><f>B1</f><v>1</v></c></row>')), [
      patch("A1", text),
    ]);
    expect([...(openWorkbook(bytes).book.sheets[0]?.cells.values() ?? [])][0]?.value).toBe(text);
  });
});

describe("cells and rows that are not there", () => {
  it("go where they belong, and the ranges that list them widen", () => {
    const before =
      '<dimension ref="B2:C4"/><cols><col min="4" max="5" style="7"/></cols><sheetData>\n<row r="2" spans="2:3"><c r="B2"><v>1</v></c><c r="C2"/></row>' +
      '<row r="4" s="9" customFormat="1" spans="2:3"/>\n</sheetData>';
    const after = patched(
      before,
      patch("A2", 1),
      patch("D2", "x"),
      patch("E3", true),
      patch("B4", 2),
      patch("A1", 3),
      patch("A9", 4),
      patch("B9", 5),
    );
    expect(after).toBe(
      '<dimension ref="A1:E9"/><cols><col min="4" max="5" style="7"/></cols><sheetData>\n<row r="1"><c r="A1"><v>3</v></c></row>' +
        '<row r="2" spans="1:4"><c r="A2"><v>1</v></c><c r="B2"><v>1</v></c><c r="C2"/><c r="D2" s="7" t="inlineStr"><is><t>x</t></is></c></row>' +
        '<row r="3"><c r="E3" s="7" t="b"><v>1</v></c></row><row r="4" s="9" customFormat="1" spans="2:3"><c r="B4" s="9"><v>2</v></c></row>\n' +
        '<row r="9"><c r="A9"><v>4</v></c><c r="B9"><v>5</v></c></row></sheetData>',
    );
  });

  it("also on an empty sheet, and with the prefix that the sheet uses", () => {
    expect(patched("<sheetData/>", patch("B2", 1))).toBe(
      '<sheetData><row r="2"><c r="B2"><v>1</v></c></row></sheetData>',
    );
    const part = strToU8(
      `<x:worksheet xmlns:x="${transitional.main}"><x:sheetData><x:row r="1"/></x:sheetData></x:worksheet>`,
    );
    const copy = writeBack(openWorkbook(sheetOf("", { parts: { "xl/worksheets/sheet1.xml": part } })), [
      patch("A1", "t"),
      patch("A2", 1),
    ]);
    expect(strFromU8(unzipSync(copy)["xl/worksheets/sheet1.xml"] ?? new Uint8Array())).toContain(
      '<x:row r="1"><x:c r="A1" t="inlineStr"><x:is><x:t>t</x:t></x:is></x:c></x:row><x:row r="2"><x:c r="A2"><x:v>1</x:v></x:c></x:row>',
    );
  });

  it("blank ones are not made", () => {
    expect(patched("<sheetData/>", patch("B2", null))).toBe("<sheetData/>");
  });
});

it("a dynamic array's range follows its result", () => {
  const before = '<c r="A1" cm="1"><f t="array" ref="A1:B1">_xlfn.SEQUENCE(1,2)</f><v>1</v></c><c r="B1"><v>2</v></c>';
  const grown = { top: 0, left: 0, bottom: 0, right: 2 };
  expect(inRow(before, patch("A1", 1, grown), patch("C1", 3))).toBe(
    before.replace("A1:B1", "A1:C1") + '<c r="C1"><v>3</v></c>',
  );
  const single = { top: 0, left: 0, bottom: 0, right: 0 };
  expect(inRow(before, patch("A1", 1, single), patch("B1", null))).toBe(
    before.replace("A1:B1", "A1").replace("<v>2</v>", ""),
  );
});

it("numbers that no cell can hold are refused", () => {
  const opened = openWorkbook(sheetOf('<row r="1"><c r="A1"><v>1</v></c></row>'));
  expect(() => writeBack(opened, [patch("A1", NaN)])).toThrow(RangeError);
});

it("errors that the file format does not know are refused", () => {
  const opened = openWorkbook(sheetOf('<row r="1"><c r="A1"><f>B1</f><v>1</v></c></row>'));
  expect(() => writeBack(opened, [patch("A1", new ErrorValue("#SPILL!"))])).toThrow(/becomes #SPILL!/);
});

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

describe("any changes to any sheet", () => {
  const value = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => (number === 0 ? 0 : number)),
    fc.string({ unit: "binary", maxLength: 12 }),
    fc.boolean(),
    fc.constantFrom(...(["#N/A", "#DIV/0!", "#NULL!"] as const)).map((code) => new ErrorValue(code)),
  );
  /** The ways in which a cell may stand in a file. */
  const stored = fc.constantFrom(
    ' s="1"/>',
    "><v>1.50</v></c>",
    ' t="s"><v>0</v></c>',
    ' t="str" s="2"><f>B1&amp;"&lt;"</f><v>a</v></c>',
    "><f>1+1</f><v >2</v></c>",
    ' t="inlineStr" ><is><r><t>x</t></r></is></c>',
    ' t="e"><f ca="1">NA()</f><v>#N/A</v></c>',
    " ><f>B9</f></c>",
  );
  const sheet = fc.uniqueArray(fc.tuple(fc.nat(9), fc.nat(8), stored, fc.option(value, { freq: 2 })), {
    selector: ([row, column]) => row * 100 + column,
    maxLength: 40,
  });

  it("touch those cells alone, and read back as asked", () => {
    fc.assert(
      fc.property(sheet, (cells) => {
        const inOrder = [...cells].sort(([a, b], [c, d]) => a - c || b - d);
        const name = (row: number, column: number): string => `${"ABCDEFGHI"[column]}${row + 1}`;
        const rows = [...new Set(inOrder.map(([row]) => row))].map((row) => {
          const inside = inOrder
            .filter(([own]) => own === row)
            .map(([, column, rest]) => `<c r="${name(row, column)}"${rest}`);
          return `<row r="${row + 1}" ht="15">\n${inside.join(" ")}</row>`;
        });
        const before = `<sheetData>${rows.join("\n")}</sheetData><pageMargins left="0.7"/>`;
        const patches = inOrder.flatMap(([row, column, , to]) => (to === null ? [] : [patch(name(row, column), to)]));
        const bytes = sheetOf("", {
          strings: "<si><t>shared</t></si>",
          parts: { "xl/worksheets/sheet1.xml": strToU8(`<worksheet>${before}</worksheet>`) },
        });
        const copy = writeBack(openWorkbook(bytes), patches);
        const after = strFromU8(unzipSync(copy)["xl/worksheets/sheet1.xml"] ?? new Uint8Array()).slice(11, -12);

        const oneCell = /<c [^>]*?(?:\/>|>.*?<\/c>)/gs;
        expect(after.replace(oneCell, "C")).toBe(before.replace(oneCell, "C"));
        const written = openWorkbook(copy).book.sheets[0]?.cells;
        const [cellsBefore, cellsAfter] = [before.match(oneCell) ?? [], after.match(oneCell) ?? []];
        inOrder.forEach(([row, column, , to], index) => {
          if (to === null) expect(cellsAfter[index]).toBe(cellsBefore[index]);
          else expect(written?.get(cellKey(row, column))?.value).toEqual(to);
        });
      }),
      { numRuns: 200 },
    );
  });
});
