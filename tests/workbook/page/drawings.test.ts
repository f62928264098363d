import { strToU8 } from "fflate";
import { describe, expect, it } from "vitest";
import { evaluateBook, openWorkbook, writeWorkbookPage } from "../../../src/workbook/index";
import { readSheetLooks } from "../../../src/workbook/file/appearance/sheet-appearance";
import { packageOf, transitional } from "../file/package";

const space = "http://schemas.openxmlformats.org/drawingml/2006/";

type Place = readonly [column: number, row: number, rowOffset: number];

const corner = (name: string, [column, row, offset]: Place) =>
  `<xdr:${name}><xdr:col>${column}</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>${row}</xdr:row><xdr:rowOff>${offset}</xdr:rowOff></xdr:${name}>`;
const chart = (words: string) =>
  `<xdr:graphicFrame><xdr:nvGraphicFramePr><xdr:cNvPr id="2" name="Chart 1"${words}/></xdr:nvGraphicFramePr></xdr:graphicFrame>`;
const picture = '<xdr:pic><xdr:nvPicPr><xdr:cNvPr id="3" name="Picture 1"/></xdr:nvPicPr></xdr:pic>';
const between = (from: Place, to: Place, content: string) =>
  `<xdr:twoCellAnchor>${corner("from", from)}${corner("to", to)}${content}<xdr:clientData/></xdr:twoCellAnchor>`;

function openedWith(anchors: string) {
  const drawing = `<xdr:wsDr xmlns:xdr="${space}spreadsheetDrawing" xmlns:a="${space}main">${anchors}</xdr:wsDr>`;
  return openWorkbook(
    packageOf({
      sheets: ['<sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="9"><c r="B9"><v>9</v></c></row></sheetData>'],
      sheetLinks: {
        0: `<Relationship Id="d" Type="${transitional.links}/drawing" Target="../drawings/drawing1.xml"/>`,
      },
      parts: { "xl/drawings/drawing1.xml": strToU8(drawing) },
    }),
  );
}

function pageWith(anchors: string): string {
  const opened = openedWith(anchors);
  const evaluation = evaluateBook(opened.book);
  return writeWorkbookPage({
    title: "",
    lead: [],
    parts: [],
    opened,
    evaluation,
    evaluateOptions: {},
    set: [],
    namedCells: [],
    footer: "",
  });
}

describe("drawings on a sheet", () => {
  it("are read with their kind, the cells that they touch and their words", () => {
    const one = between([1, 1, 0], [3, 5, 0], chart(' descr="Bars &amp; more"'));
    const two = between([1, 1, 0], [3, 5, 9], picture);
    const loose = `<xdr:oneCellAnchor>${corner("from", [1, 1, 0])}<xdr:ext cx="1" cy="1"/>${chart(' title="T"')}<xdr:clientData/></xdr:oneCellAnchor>`;
    const [looks] = readSheetLooks(openedWith(one + two + loose));
    expect(looks?.drawings).toEqual([
      { kind: "chart", area: { top: 1, left: 1, bottom: 4, right: 2 }, words: "Bars & more" },
      { kind: "picture", area: { top: 1, left: 1, bottom: 5, right: 2 }, words: "" },
      { kind: "chart", area: undefined, words: "T" },
    ]);
  });

  it("have their words in their place where nothing is written there", () => {
    const page = pageWith(between([1, 1, 0], [3, 5, 0], chart(' descr="Bars &lt;here&gt;"')));
    expect(page).toContain(
      '<td class="drawing" colspan="2" rowspan="4"><span>Chart, not shown: Bars &lt;here&gt;</span></td>',
    );
  });

  it("widen the sheet to where they end, and say so without words of their own", () => {
    const page = pageWith(between([1, 10, 0], [5, 20, 0], picture));
    expect(page).toContain('<td class="drawing" colspan="4" rowspan="10"><span>Picture, not shown.</span></td>');
  });

  it("leave cells that are written in their sight, and each other", () => {
    expect(pageWith(between([0, 0, 0], [3, 5, 0], picture))).not.toContain('class="drawing"');
    const both = between([2, 1, 0], [4, 5, 0], picture) + between([3, 2, 0], [6, 6, 0], picture);
    expect(pageWith(both).match(/class="drawing"/g)).toHaveLength(1);
  });
});

describe("elements named as what every object has", () => {
  it("are drawings of no known kind, and corners without such a coordinate", () => {
    const own = "<xdr:toString/><xdr:constructor/><xdr:hasOwnProperty/>";
    const odd = `<xdr:twoCellAnchor><xdr:from>${own}<xdr:col>1</xdr:col><xdr:row>1</xdr:row></xdr:from>${corner("to", [2, 2, 1])}${own}</xdr:twoCellAnchor>`;
    const [looks] = readSheetLooks(openedWith(odd));
    const [drawing] = looks?.drawings ?? [];
    expect(drawing).toMatchObject({ kind: "drawing", area: { top: 1, left: 1 } });
    expect(pageWith(odd)).toContain("<table");
  });
});
