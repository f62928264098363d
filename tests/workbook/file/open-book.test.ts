import { strToU8 } from "fflate";
import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../../src/workbook/index";
import { packageOf, strict, transitional } from "./package";
import { cellOf, bookOf } from "./book-of";

function utf16(text: string, littleEndian: boolean): Uint8Array {
  const bytes = new Uint8Array(2 + text.length * 2);
  const view = new DataView(bytes.buffer);
  [...`\uFEFF${text}`].forEach((letter, index) => view.setUint16(index * 2, letter.charCodeAt(0), littleEndian));
  return bytes;
}

describe("the book around the cells", () => {
  it("reads sheets, names, epoch and settings that change results", () => {
    const opened = openWorkbook(
      packageOf({
        sheets: ["<sheetData/>", "<sheetData/>"],
        sheetNames: ["Rooms &amp; areas", "Second"],
        workbook:
          "<definedNames><definedName name=\"Volume\">'Rooms &amp; areas'!$B$4</definedName>" +
          '<definedName name="Local" localSheetId="1" hidden="1">Second!$A$1</definedName></definedNames><calcPr fullPrecision="0" iterate="1"/>',
      }),
    );
    expect(opened.book.sheets.map(({ name }) => name)).toEqual(["Rooms & areas", "Second"]);
    expect(opened.book.names).toEqual([
      { name: "Volume", text: "'Rooms & areas'!$B$4" },
      { name: "Local", sheet: 1, text: "Second!$A$1" },
    ]);
    expect(opened.cautions).toHaveLength(2);
  });

  it("names the sheets that are calculated by other rules than Excel's own", () => {
    const sheets = ['<sheetPr transitionEvaluation="1"/><sheetData/>', '<sheetPr transitionEntry="1"/><sheetData/>'];
    const { cautions } = openWorkbook(packageOf({ sheets, sheetNames: ["Old sheet", "New sheet"] }));
    expect(cautions).toEqual([expect.stringMatching(/^the sheet "Old sheet" is calculated by .*transition formula/)]);
  });

  it("reads hidden rows and columns, filtered rows, merged areas", () => {
    const [sheet] = openWorkbook(
      packageOf({
        sheets: [
          '<cols><col min="2" max="3" hidden="1"/></cols><sheetData><row r="2" hidden="1"/><row r="9" hidden="1"/></sheetData>' +
            '<autoFilter ref="A1:B5"><filterColumn colId="0"/></autoFilter><mergeCells><mergeCell ref="A1:B2"/></mergeCells>',
        ],
      }),
    ).book.sheets;
    expect([...(sheet?.hiddenColumns ?? [])]).toEqual([1, 2]);
    expect([...(sheet?.hiddenRows ?? [])]).toEqual([1, 8]);
    // With a filter at work SUBTOTAL leaves out every hidden row, also outside the filter: SubtotalFilters.xlsx, saved by Excel.
    expect([...(sheet?.filteredRows ?? [])]).toEqual([1, 8]);
    expect(sheet?.mergedAreas).toEqual([{ top: 0, left: 0, bottom: 1, right: 1 }]);
  });

  it("knows rows hidden by an advanced filter, and no filter of a custom view", () => {
    const rows = '<sheetData><row r="2" hidden="1"/><row r="9" hidden="1"/></sheetData>';
    const unseen = `<sheetPr filterMode="1"/>${rows}`;
    const view = `${rows}<customSheetViews><customSheetView guid="{0}"><autoFilter ref="A1:B5"><filterColumn colId="0"/></autoFilter></customSheetView></customSheetViews>`;
    const name =
      '<definedNames><definedName name="_xlnm._FilterDatabase" localSheetId="0" hidden="1">Sheet1!$A$1:$B$5</definedName></definedNames>';
    const filtered = (sheets: string[], workbook = "") =>
      openWorkbook(packageOf({ sheets, workbook })).book.sheets.map(({ filteredRows }) => [...filteredRows]);
    expect(filtered([unseen, view], name)).toEqual([[1, 8], []]);
    expect(filtered([unseen])).toEqual([[1, 8]]);
  });

  it("reads number formats, built-in and the book's own", () => {
    const book = bookOf('<row r="1"><c s="1"><v>1</v></c><c s="2"><v>1</v></c><c><v>1</v></c></row>', {
      styles:
        '<numFmts><numFmt numFmtId="164" formatCode="0.000&quot; m³&quot;"/></numFmts><cellStyleXfs><xf numFmtId="9"/></cellStyleXfs>' +
        '<cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="10"/></cellXfs>',
    });
    expect(["A1", "B1", "C1"].map((address) => cellOf(book, address)?.format)).toEqual([
      '0.000" m³"',
      "0.00%",
      "General",
    ]);
  });

  it("reads tables with their headings and totals", () => {
    const table =
      `<table xmlns="${transitional.main}" name="T" displayName="Readings" ref="B2:C5" totalsRowCount="1"><autoFilter ref="B2:C4"/>` +
      '<tableColumns><tableColumn name="Pressure"/><tableColumn name="Flow_x000a_rate"/></tableColumns></table>';
    const { book } = openWorkbook(
      packageOf({
        sheets: ["<sheetData/>"],
        sheetLinks: { 0: `<Relationship Id="rId1" Type="${transitional.links}/table" Target="../tables/table1.xml"/>` },
        parts: { "xl/tables/table1.xml": strToU8(table) },
      }),
    );
    expect(book.tables).toEqual([
      {
        name: "Readings",
        sheet: 0,
        area: { top: 1, left: 1, bottom: 4, right: 2 },
        columns: ["Pressure", "Flow\nrate"],
        headerRows: 1,
        totalsRows: 1,
      },
    ]);
  });

  it("reads the strict namespace, prefixed elements and UTF-16 as well", () => {
    const rows = '<row r="1"><c r="A1" t="s"><v>0</v></c></row>';
    const strings = "<si><t>Größe</t></si>";
    expect(cellOf(bookOf(rows, { strings, words: strict }), "A1")?.value).toBe("Größe");
    const prefixed = `<x:worksheet xmlns:x="${transitional.main}"><x:sheetData><x:row r="1"><x:c r="A1"><x:f>1+1</x:f><x:v>2</x:v></x:c></x:row></x:sheetData></x:worksheet>`;
    for (const bytes of [strToU8(prefixed), utf16(prefixed, true), utf16(prefixed, false)]) {
      const book = bookOf("", { parts: { "xl/worksheets/sheet1.xml": bytes } });
      expect(cellOf(book, "A1")).toMatchObject({ value: 2, formula: { text: "1+1" } });
    }
  });
});
