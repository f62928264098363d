import { strFromU8, strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { cellKey, ErrorValue, openWorkbook, parsePlace, type Book, type Cell } from "../../../src/workbook/index";
import { dynamicArrays, packageOf, partsOf, sheetOf, strict, transitional } from "./package";

function cellOf(book: Book, address: string, sheet = 0): Cell | undefined {
  const place = parsePlace(address);
  if (!place) throw new Error(address);
  return book.sheets[sheet]?.cells.get(cellKey(place.row, place.column));
}

const bookOf = (rows: string, options = {}): Book => openWorkbook(sheetOf(rows, options)).book;

describe("values", () => {
  const book = bookOf(
    '<row r="1"><c r="A1"><v>0.1</v></c><c r="B1" t="n"><v>-1.5E-3</v></c><c r="C1" t="b"><v>1</v></c><c r="D1" t="e"><v>#DIV/0!</v></c>' +
      '<c r="E1" t="s"><v>1</v></c><c r="F1" t="str"><f>"a"</f><v>a_x000D_&amp;_x005F_x000D_</v></c><c r="G1" t="str"><f>""</f><v></v></c>' +
      '<c r="H1" t="inlineStr"><is><r><t>in</t></r><r><t xml:space="preserve">line </t></r><rPh sb="0" eb="1"><t>no</t></rPh></is></c>' +
      '<c r="I1" t="d"><v>2026-11-24</v></c><c r="J1" s="1"/><c r="K1" t="e"><f>X()</f><v>#SPILL!</v></c><c r="L1"><v/></c></row>' +
      "<row><c><v>7</v></c><c/><c><v>8</v></c></row>",
    {
      strings:
        '<si><t>zero</t></si><si><r><rPr><b/></rPr><t>rich </t></r><r><t>text</t></r><rPh sb="0" eb="1"><t>phonetic</t></rPh></si>',
    },
  );
  const value = (address: string): unknown => cellOf(book, address)?.value;

  it("reads every type of cell", () => {
    expect([value("A1"), value("B1"), value("C1")]).toEqual([0.1, -0.0015, true]);
    expect(value("D1")).toEqual(new ErrorValue("#DIV/0!"));
    expect(value("E1")).toBe("rich text");
    expect(value("F1")).toBe("a\r&_x000D_");
    expect(value("G1")).toBe("");
    expect(value("H1")).toBe("inline ");
    expect(value("K1")).toEqual(new ErrorValue("#SPILL!"));
  });

  it("reads dates as serial numbers, by the book's epoch", () => {
    // ECMA-376 part 1, 18.17.4.1: 1 January 1900 is 1, and 1 March 1900 is 61; from 1904, 1 January 1904 is 0.
    expect(value("I1")).toBe(46350);
    const dates = ["1900-01-01", "1900-02-28", "1900-03-01", "2026-11-24T06:00:00Z", "18:00:00"];
    const rows = `<row r="1">${dates.map((text) => `<c t="d"><v>${text}</v></c>`).join("")}</row>`;
    const values = (date1904: boolean): unknown[] =>
      [
        ...(bookOf(rows, { workbookStart: `<workbookPr date1904="${date1904}"/>` }).sheets[0]?.cells.values() ?? []),
      ].map((cell) => cell.value);
    expect(values(false)).toEqual([1, 59, 61, 46350.25, 0.75]);
    expect(values(true)[3]).toBe(46350.25 - 1462);
  });

  it("reads the errors that are stored as #VALUE! with their kind apart", () => {
    const rich = "http://schemas.microsoft.com/office/spreadsheetml/2017/richdata";
    const links = "http://schemas.microsoft.com/office/2017/06/relationships";
    const link = (kind: string, target: string): string =>
      `<Relationship Id="${kind}" Type="${links}/${kind}" Target="richData/${target}"/>`;
    const parts = partsOf({
      sheets: [
        '<sheetData><row r="1"><c t="e" vm="2"><v>#VALUE!</v></c><c t="e" vm="1"><v>#VALUE!</v></c><c t="e"><v>#VALUE!</v></c></row></sheetData>',
      ],
      metadata:
        '<metadataTypes><metadataType name="XLDAPR"/><metadataType name="XLRICHVALUE"/></metadataTypes>' +
        `<futureMetadata name="XLRICHVALUE">${[0, 1].map((place) => `<bk><extLst><ext><x:rvb xmlns:x="${rich}" i="${place}"/></ext></extLst></bk>`).join("")}</futureMetadata>` +
        '<valueMetadata><bk><rc t="2" v="0"/></bk><bk><rc t="2" v="1"/></bk></valueMetadata>',
      parts: {
        "xl/richData/rdrichvalue.xml": strToU8(
          `<rvData xmlns="${rich}"><rv s="1"><v>13</v><v>4</v></rv><rv s="0"><v>0</v><v>8</v></rv></rvData>`,
        ),
        "xl/richData/rdrichvaluestructure.xml": strToU8(
          `<rvStructures xmlns="${rich}"><s t="_error"><k n="colOffset" t="i"/><k n="errorType" t="i"/></s><s t="_error"><k n="errorType" t="i"/><k n="subType" t="i"/></s></rvStructures>`,
        ),
      },
    });
    const rels = strFromU8(parts["xl/_rels/workbook.xml.rels"] as Uint8Array);
    const more = link("rdRichValue", "rdrichvalue.xml") + link("rdRichValueStructure", "rdrichvaluestructure.xml");
    parts["xl/_rels/workbook.xml.rels"] = strToU8(rels.replace("</Relationships>", `${more}</Relationships>`));
    const { book } = openWorkbook(zipSync(parts));
    expect(["A1", "B1", "C1"].map((address) => cellOf(book, address)?.value)).toEqual([
      new ErrorValue("#SPILL!"),
      new ErrorValue("#CALC!"),
      new ErrorValue("#VALUE!"),
    ]);
  });

  it("keeps no cell that holds only a style", () => {
    expect([value("J1"), cellOf(book, "J1"), cellOf(book, "L1")]).toEqual([undefined, undefined, undefined]);
  });

  it("counts rows and cells that carry no address", () => {
    expect([value("A2"), value("B2"), value("C2")]).toEqual([7, undefined, 8]);
  });
});

describe("formulas", () => {
  it("expands shared formulas, moving only relative references and leaving text alone", () => {
    const book = bookOf(
      `<row r="1"><c r="B1"><f t="shared" ref="B1:C3" si="0">SUM(A$1:$A1)*'My Sheet'!B2&amp;"A1"&amp;LOG10(A1)&amp;_xldudf_NAME_FUNCTION(A1:A9)</f><v>1</v></c></row>` +
        '<row r="3"><c r="C3"><f t="shared" si="0"/><v>2</v></c></row>',
    );
    expect(cellOf(book, "C3")?.formula?.text).toBe(
      `SUM($A$1:B3)*'My Sheet'!C4&"A1"&LOG10(B3)&_xldudf_NAME_FUNCTION(B3:B11)`,
    );
    expect(cellOf(book, "B1")?.formula?.text).toContain("SUM(A$1:$A1)");
  });

  it("tells legacy arrays, dynamic arrays and what-if tables apart", () => {
    const book = bookOf(
      '<row r="1"><c r="A1"><f t="array" ref="A1:A2">ROW(B1:B2)</f><v>1</v></c><c r="B1" cm="1"><f t="array" ref="B1:C2">_xlfn.SEQUENCE(2,2)</f><v>1</v></c>' +
        '<c r="D1"><f t="dataTable" ref="D1:D2" dt2D="0" r1="A1"/><v>1</v></c></row>',
      { metadata: dynamicArrays },
    );
    expect(cellOf(book, "A1")?.formula).toEqual({
      text: "ROW(B1:B2)",
      array: { top: 0, left: 0, bottom: 1, right: 0 },
    });
    expect(cellOf(book, "B1")?.formula).toMatchObject({
      dynamic: true,
      array: { top: 0, left: 1, bottom: 1, right: 2 },
    });
    expect(cellOf(book, "D1")?.formula).toMatchObject({ dataTable: true });
  });
});

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
    expect([...(sheet?.filteredRows ?? [])]).toEqual([1]);
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
    expect(filtered([unseen, view], name)).toEqual([[1], []]);
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

function utf16(text: string, littleEndian: boolean): Uint8Array {
  const bytes = new Uint8Array(2 + text.length * 2);
  const view = new DataView(bytes.buffer);
  [...`\uFEFF${text}`].forEach((letter, index) => view.setUint16(index * 2, letter.charCodeAt(0), littleEndian));
  return bytes;
}
