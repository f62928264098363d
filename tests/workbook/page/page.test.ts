import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { evaluateBook, openWorkbook, writeWorkbookPage, type PageContent } from "../../../src/workbook/index";
import { readSheetLooks } from "../../../src/workbook/file/appearance/sheet-appearance";
import { packageOf, partsOf } from "../file/package";
import { zipSync } from "fflate";

/** Fonts, fills, borders and formats that the cells below name by their index. */
const styles =
  '<numFmts><numFmt numFmtId="164" formatCode="0.00;[Red]-0.00"/></numFmts>' +
  '<fonts><font><sz val="11"/><name val="Arial"/></font><font><b/><i/><sz val="20"/><color rgb="FF123456"/><name val="Evil&quot;;}"/></font></fonts>' +
  '<fills><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>' +
  '<fill><patternFill patternType="solid"><fgColor theme="4" tint="0.59999389629810485"/></patternFill></fill>' +
  '<fill><patternFill patternType="solid"><fgColor indexed="13"/></patternFill></fill></fills>' +
  '<borders><border/><border><left style="medium"><color rgb="FFAA0000"/></left><bottom style="double"/></border></borders>' +
  "<cellXfs><xf/>" +
  '<xf fontId="1"><alignment horizontal="center" vertical="top" wrapText="1"/></xf>' +
  '<xf fillId="2" borderId="1"/><xf numFmtId="164" fillId="3"/><xf numFmtId="14"/><xf><protection locked="0"/></xf></cellXfs>' +
  '<dxfs><dxf><font><b/></font><fill><patternFill><bgColor rgb="FF00AA11"/></patternFill></fill></dxf></dxfs>';

const text = (address: string, words: string, style = 0) =>
  `<c r="${address}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${words}</t></is></c>`;

const theme =
  '<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:themeElements><a:clrScheme>' +
  '<a:dk1><a:sysClr val="windowText" lastClr="000000"/></a:dk1><a:lt1><a:sysClr val="window" lastClr="FFFFFF"/></a:lt1>' +
  '<a:dk2><a:srgbClr val="44546A"/></a:dk2><a:lt2><a:srgbClr val="E7E6E6"/></a:lt2><a:accent1><a:srgbClr val="4472C4"/></a:accent1>' +
  "</a:clrScheme></a:themeElements></a:theme>";

const main =
  '<sheetPr/><sheetViews><sheetView showGridLines="0" workbookViewId="0"/></sheetViews><sheetFormatPr defaultColWidth="10"/>' +
  '<cols><col min="2" max="2" width="20" customWidth="1"/><col min="4" max="4" width="9" hidden="1"/></cols><sheetData>' +
  `<row r="1" ht="30">${text("A1", "&lt;script&gt;alert(1)&lt;/script&gt;", 1)}${text("B1", "merged", 2)}</row>` +
  '<row r="2"><c r="A2" s="3"><v>-1.5</v></c><c r="B2" s="4"><v>46341</v></c><c r="C2"><f>A2*2</f><v>-3</v></c><c r="D2"><v>99</v></c></row>' +
  '<row r="3" hidden="1"><c r="A3"><v>77</v></c></row>' +
  `<row r="4"><c r="A4" s="5"/><c r="B4" s="5"><v>5</v></c><c r="C4"><f>NA()</f><v>0</v></c></row>` +
  '<row r="5"><c r="A5"><v>10</v></c><c r="B5"><f>WEBSERVICE("x")</f><v>42</v></c></row>' +
  "</sheetData>" +
  '<sheetProtection sheet="1"/><mergeCells><mergeCell ref="B1:C1"/></mergeCells>' +
  '<conditionalFormatting sqref="A4:B5"><cfRule type="expression" dxfId="0" priority="1"><formula>A4&gt;=10</formula></cfRule></conditionalFormatting>' +
  '<conditionalFormatting sqref="A2"><cfRule type="cellIs" operator="between" dxfId="0" priority="2"><formula>-2</formula><formula>-1</formula></cfRule></conditionalFormatting>' +
  '<conditionalFormatting sqref="C2"><cfRule type="colorScale" priority="3"/></conditionalFormatting>';

function opened() {
  const parts = partsOf({ sheets: [main, "<sheetData/>"], sheetNames: ["A &amp; B", "Blank"], styles });
  const links = new TextDecoder().decode(parts["xl/_rels/workbook.xml.rels"] as Uint8Array);
  const kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/theme";
  parts["xl/_rels/workbook.xml.rels"] = new TextEncoder().encode(
    links.replace(
      "</Relationships>",
      `<Relationship Id="t" Type="${kind}" Target="theme/theme1.xml"/></Relationships>`,
    ),
  );
  parts["xl/theme/theme1.xml"] = new TextEncoder().encode(theme);
  return openWorkbook(zipSync(parts));
}

const hashOf = (css: string) => createHash("sha256").update(css).digest("base64");

function pageOf(more: Partial<PageContent> = {}): string {
  const workbook = opened();
  return writeWorkbookPage({
    title: "A <title>",
    lead: ["One & two."],
    parts: [],
    opened: workbook,
    evaluation: evaluateBook(workbook.book),
    evaluateOptions: {},
    set: [],
    namedCells: [
      { sheet: 0, row: 1, column: 2 },
      { sheet: 0, row: 2, column: 0 },
    ],
    footer: "",
    ...more,
  });
}

/** The style sheet's declarations of the classes of the cell that holds some words. */
function lookOf(page: string, words: RegExp): string {
  const cell = [...page.matchAll(/<t[dh][^>]*?>.*?<\/t[dh]>/gs)]
    .map(([found]) => found)
    .find((found) => words.test(found.replace(/^<[^>]*>/, "")));
  const classes = /class="([^"]*)"/.exec(cell ?? "")?.[1]?.split(" ") ?? [];
  return classes.map((name) => new RegExp(`^\\.${name}\\{(.*)\\}$`, "m").exec(page)?.[1] ?? name).join(";");
}

describe("a workbook's page", () => {
  const page = pageOf();
  const body = page.slice(page.indexOf("<body>"));

  it("shows values in their number formats, computed ones in place of stored ones", () => {
    expect(body).toMatch(/>-1\.50</);
    // Day 46341 of Excel's count is 15 November 2026.
    expect(body).toMatch(/>11\/15\/2026|>15\/11\/2026|>2026-11-15/);
    expect(body).toContain(">-3<");
    expect(body).toContain("#N/A");
  });

  it("takes no markup from the workbook, neither in cells, names nor fonts", () => {
    expect(page).not.toContain("<script");
    expect(body).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
    expect(page).toContain("<title>A &lt;title&gt;</title>");
    expect(body).toContain("Sheet A &amp; B");
    expect(page).not.toContain("Evil");
  });

  it("carries looks over: font, fill by theme and tint, indexed fill, borders, alignment, colour by format", () => {
    const heading = lookOf(page, /script/);
    for (const declared of [
      "font-weight:700",
      "font-style:italic",
      "color:#123456",
      "text-align:center",
      "vertical-align:top",
      "white-space:pre-wrap",
    ])
      expect(heading).toContain(declared);
    // Excel shows "accent 1, lighter 60 %" of this theme as B4C6E7.
    expect(lookOf(page, /merged/)).toMatch(/background-color:#B4C[67]E7/);
    expect(lookOf(page, /merged/)).toContain("border-left:2px solid #AA0000");
    expect(lookOf(page, /merged/)).toContain("border-bottom:3px double #000000");
    expect(lookOf(page, /-1\.50/)).toContain("color:#C00000");
  });

  it("applies conditional formats by their formulas, each moved along its area, and names those that it leaves out", () => {
    expect(lookOf(page, />10</)).toContain("background-color:#00AA11");
    expect(lookOf(page, />5</)).not.toContain("00AA11");
    expect(lookOf(page, /-1\.50/)).toContain("background-color:#00AA11");
    expect(body).toContain("Conditional formats of other kinds are not shown (colorScale).");
  });

  it("leaves hidden rows and columns out and says so, spans merged cells, and names rows and columns", () => {
    expect(body).not.toContain(">77<");
    expect(body).not.toContain(">99<");
    expect(body).toContain("Hidden and not shown: row 3.");
    expect(body).toContain("Hidden and not shown: column D.");
    expect(body).toMatch(/colspan="2"[^>]*><span>merged/);
    expect([...body.matchAll(/<th scope="col">([A-Z]+)<\/th>/g)].map(([, letter]) => letter)).toEqual(["A", "B", "C"]);
    expect([...body.matchAll(/<th scope="row">(\d+)<\/th>/g)].map(([, row]) => row)).toEqual(["1", "2", "4", "5"]);
    expect(body).toContain("This sheet has no cells.");
  });

  it("marks inputs, errors and stored values, and gives formulas on request", () => {
    expect([...body.matchAll(/class="[^"]*\bin\b/g)]).toHaveLength(2 + 1);
    expect(body).toContain("(input, blank)");
    expect(body).toMatch(/class="[^"]*\berr\b[^>]*title="C4: =NA\(\)"/);
    expect(body).toMatch(/class="[^"]*\bold\b[^>]*>/);
    expect(body).toContain("(not evaluated, stored value)");
    expect(body).toMatch(/<details><summary>Formulas of this sheet \(3\)<\/summary>/);
    expect(body).toContain('id="s1-C2"');
    expect(body).not.toContain('id="s1-A2"');
    // A link to a hidden cell leads to the sheet that says what it hides.
    expect(body).toMatch(/class="sheet-part"[^>]*><span id="s1-A3"><\/span>/);
  });

  it("holds one style sheet that its policy admits by its hash, and no style, script or address of another place", () => {
    const css = /<style>([\s\S]*)<\/style>/.exec(page)?.[1] ?? "";
    expect(page).toContain(`style-src &#39;sha256-${hashOf(css)}&#39;`);
    expect(page).not.toMatch(/\sstyle="|<link|src=|https?:(?!\/\/www\.w3\.org)|@import|url\(/);
  });

  it("shows values that were put into cells", () => {
    const changed = pageOf({ set: [{ sheet: 0, row: 3, column: 1, value: 12345 }] });
    expect(changed).toContain(">12345<");
  });
});

describe("looks of a sheet", () => {
  it("cost nothing where none are stored", () => {
    const [looks] = readSheetLooks(
      openWorkbook(packageOf({ sheets: ['<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>'] })),
    );
    expect(looks).toMatchObject({
      isProtected: false,
      showsGrid: true,
      rules: [],
      lastStyledRow: -1,
      drawings: [],
    });
    expect(looks?.styleOf(0, 0)).toEqual({ font: {}, edges: {}, locked: true });
  });
});
