import { strFromU8, strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { ErrorValue, openWorkbook } from "../../../src/workbook/index";
import { dynamicArrays, partsOf } from "./package";
import { cellOf, bookOf } from "./book-of";

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

  it("takes array formulas that touch, one below, beside and across the other", () => {
    const array = (cell: string, range: string): string => `<c r="${cell}"><f t="array" ref="${range}">1</f></c>`;
    const rows = [
      [array("A1", "A1:A3"), array("B1", "B1:D1"), array("E1", "E1:E2")],
      [array("B2", "B2:C3"), '<c r="D2"><f>2</f></c>'],
      [array("D3", "D3:E3")],
      [array("A4", "A4:E4")],
    ];
    const data = rows.map((ofRow, index) => `<row r="${index + 1}">${ofRow.join("")}</row>`).join("");
    expect(bookOf(data).sheets[0]?.cells.size).toBe(7);
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
