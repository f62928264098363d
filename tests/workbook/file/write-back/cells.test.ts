import { strFromU8, strToU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { ErrorValue, openWorkbook, writeBack, type CellPatch, type CellValue } from "../../../../src/workbook/index";
import { dynamicArrays, sheetOf, transitional } from "../package";
import { patch } from "./sheet-of";

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
