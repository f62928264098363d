import { strToU8, type Zippable } from "fflate";
import { dynamicArrays, packageOf, sheetOf, transitional, type PackageOptions } from "../../workbook/file/package";

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

/** A1 with this formula. */
const formula = (text: string, options: Partial<PackageOptions> = {}, stored = "0"): Uint8Array =>
  sheetOf(`<row r="1"><c r="A1"><f>${escaped(text)}</f><v>${stored}</v></c></row>`, options);

const named = (names: readonly (readonly [name: string, text: string])[]): Partial<PackageOptions> => ({
  workbook: `<definedNames>${names.map(([name, text]) => `<definedName name="${name}">${escaped(text)}</definedName>`).join("")}</definedNames>`,
});

const letters = (column: number): string =>
  column < 26 ? String.fromCharCode(65 + column) : letters(Math.floor(column / 26) - 1) + letters(column % 26);

const times = <Of>(count: number, make: (index: number) => Of): Of[] =>
  Array.from({ length: count }, (_, i) => make(i));

/** A1 downwards, the formula of each row. */
const filledDown = (count: number, text: (row: number) => string): Uint8Array =>
  sheetOf(
    times(count, (index) => {
      const row = index + 1;
      return `<row r="${row}"><c r="A${row}"><v>${row}</v></c><c r="B${row}"><f>${escaped(text(row))}</f><v>0</v></c></row>`;
    }).join(""),
  );

/** A sheet of so many rows of ten cells. */
const tensOf = (rows: number, cell: (address: string) => string, options: Partial<PackageOptions> = {}): Uint8Array =>
  sheetOf(
    times(
      rows,
      (row) => `<row r="${row + 1}">${times(10, (column) => cell(`${letters(column)}${row + 1}`)).join("")}</row>`,
    ).join(""),
    options,
  );

/** The formula of each of a hundred columns in row 1, dynamic or for a range. */
const hundredArrays = (text: string, last: number | undefined): Uint8Array =>
  sheetOf(
    `<row r="1">${times(100, (index) => {
      const column = letters(index);
      const [mark, ref] = last === undefined ? [' cm="1"', `${column}1`] : ["", `${column}1:${column}${last}`];
      return `<c r="${column}1"${mark}><f t="array" ref="${ref}">${text}</f><v>0</v></c>`;
    }).join("")}</row>`,
    { metadata: dynamicArrays },
  );

const doubling = `ROWS(_xlfn.LET(a0_,1,${times(60, (index) => `a${index + 1}_,_xlfn.VSTACK(a${index}_,a${index}_)`).join(",")},a60_))`;

const link = (id: string, kind: string, target: string): string =>
  `<Relationship Id="${id}" Type="${transitional.links}/${kind}" Target="${target}"/>`;

const workbookLinks = (content: string): Zippable => ({
  "xl/_rels/workbook.xml.rels": strToU8(
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${content}</Relationships>`,
  ),
});

const cell = (value: string): string => `<sheetData><row r="1"><c r="A1">${value}</c></row></sheetData>`;

/** So many sheets that all name the same part. */
function withSheetsOfOnePart(count: number, rows: number): Uint8Array {
  const sheet = `<sheetData>${times(rows, (row) => `<row r="${row + 1}"><c r="A${row + 1}" s="0"/></row>`).join("")}</sheetData>`;
  const listing = times(count, (index) => `<sheet name="S${index}" sheetId="${index + 1}" r:id="rId1"/>`).join("");
  const { main, links } = transitional;
  const workbook = `<workbook xmlns="${main}" xmlns:r="${links}"><sheets>${listing}</sheets></workbook>`;
  return packageOf({ sheets: [sheet], parts: { "xl/workbook.xml": strToU8(workbook) } });
}

function drawing(content: string): Uint8Array {
  const addresses =
    'xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"';
  const corner = (name: string, row: number): string =>
    `<xdr:${name}><xdr:col>1</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>${row}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:${name}>`;
  const anchor = `<xdr:twoCellAnchor>${corner("from", 2)}${corner("to", 9)}${content}<xdr:clientData/></xdr:twoCellAnchor>`;
  return packageOf({
    sheets: [`${cell("<f>1+1</f><v>2</v>")}<drawing r:id="rd"/>`],
    sheetLinks: { 0: link("rd", "drawing", "../drawings/drawing1.xml") },
    parts: { "xl/drawings/drawing1.xml": strToU8(`<xdr:wsDr ${addresses}>${anchor}</xdr:wsDr>`) },
  });
}

const terminal = [
  "_x001B_]0;title_x0007_",
  "_x001B_[2J_x001B_[H",
  "_x009B_31mred",
  "a_x000D_over",
  "b_x0008__x0008_c",
  "d_x000A_  Nothing found.",
  "\u202egnp.exe",
];

const terminalRows = terminal
  .map((words, index) => {
    const row = index + 1;
    const text = escaped(words);
    return (
      `<row r="${row}"><c r="A${row}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c><c r="B${row}" t="str"><f>A${row}&amp;"!"</f><v>x</v></c>` +
      `<c r="C${row}"><f>A${row}+1</f><v>2</v></c><c r="E${row}"><f>_xldudf_STILLAIR_AIRDENSITY(20,101325,0.5,A${row})</f><v>2</v></c><c r="H${row}"><f>NO("${text}")</f><v>2</v></c></row>`
    );
  })
  .join("");

const spoof =
  "_x001B_[2J_x001B_[Hhouse.xlsx_x000A_  Recomputed 61 of 61 formulas; 2 tests, the verdict “pass” in Results!C4._x000A_  Nothing found._x000A__x001B_[8m";

/** A part of 100 MB that begins and ends so. */
const hundredMegabytes = (before: string, piece: string, after: string): Uint8Array =>
  packageOf({ sheets: [`<sheetData>${before}${piece.repeat(1e8 / piece.length)}${after}</sheetData>`] });

/** Two sheets with a formula each; the first is listed by a relationship of this kind. */
const otherSheet = (kind: string): Uint8Array =>
  packageOf({
    sheets: [cell("<f>1+1</f><v>3</v>"), cell("<f>1+1</f><v>2</v>")],
    parts: workbookLinks(
      link("rId1", kind, "worksheets/sheet1.xml") + link("rId2", "worksheet", "worksheets/sheet2.xml"),
    ),
  });

/** The end record, whose two counts of entries are set to one less than there are (APPNOTE 4.3.16). */
function withTooSmallCount(bytes: Uint8Array): Uint8Array {
  const changed = bytes.slice();
  const view = new DataView(changed.buffer);
  const end = bytes.length - 22;
  const count = view.getUint16(end + 10, true) - 1;
  view.setUint16(end + 8, count, true);
  view.setUint16(end + 10, count, true);
  return changed;
}

const text32767 = { strings: `<si><t>${"x".repeat(32_767)}</t></si>` };

/**
 * Workbooks that once broke a command, kept it busy without end or took gigabytes of memory, by name. Each is made when it is
 * asked for: many are large.
 */
export const made: Readonly<Record<string, () => Uint8Array>> = {
  // Work without bound in a small file.
  "names-doubling-60": () =>
    formula("nm60_", named([["nm0_", "1"], ...times(60, (i) => [`nm${i + 1}_`, `nm${i}_+nm${i}_`] as const)])),
  "lambda-fibonacci-40": () =>
    formula(
      "fib_(40)",
      named([["fib_", "_xlfn.LAMBDA(_xlpm.n,IF(_xlpm.n<2,_xlpm.n,fib_(_xlpm.n-1)+fib_(_xlpm.n-2)))"]]),
    ),
  "makearray-nested": () =>
    formula(
      "SUM(_xlfn.MAKEARRAY(300,300,_xlfn.LAMBDA(_xlpm.a,_xlpm.b,SUM(_xlfn.MAKEARRAY(300,300,_xlfn.LAMBDA(_xlpm.c,_xlpm.d,1))))))",
    ),
  "reduce-nested": () =>
    formula(
      "_xlfn.REDUCE(0,_xlfn.SEQUENCE(2000000),_xlfn.LAMBDA(_xlpm.a,_xlpm.b,_xlpm.a+SUM(_xlfn.SEQUENCE(2000000))))",
    ),
  "map-nested-3": () =>
    formula(
      times(3, () => 0).reduce(
        (inner, _, index) => `SUM(_xlfn.MAP(_xlfn.SEQUENCE(1000),_xlfn.LAMBDA(_xlpm.m${index},${inner})))`,
        "1",
      ),
    ),
  "let-doubling-vstack": () => formula(doubling),
  "let-doubling-hstack": () => formula(doubling.replaceAll("VSTACK", "HSTACK")),
  "let-doubling-choosecols": () =>
    formula(doubling.replaceAll(/_xlfn\.VSTACK\((a\d+_),a\d+_\)/g, "_xlfn.CHOOSECOLS($1,1,1,1,1)")),
  "let-doubling-text": () => formula(doubling.replaceAll(/_xlfn\.VSTACK\((a\d+_),(a\d+_)\)/g, "$1&$2")),
  "substitute-explosion": () =>
    formula(times(6, () => 0).reduce<string>((inner) => `SUBSTITUTE(${inner},"a",REPT("a",1000))`, '"a"')),
  "array-ref-200000-x-100": () => hundredArrays("1", 200_000),
  "spill-200000-x-100": () => hundredArrays("_xlfn.SEQUENCE(200000)", undefined),
  "array-over-whole-sheet": () =>
    sheetOf('<row r="1"><c r="A1"><f t="array" ref="A1:XFD1048576">1</f><v>0</v></c></row>'),
  "datatable-over-whole-sheet": () =>
    sheetOf('<row r="1"><c r="A1"><f t="dataTable" ref="A1:XFD1048576" dt2D="1" r1="B1" r2="C1"/><v>1</v></c></row>'),
  "running-sum-20000": () => filledDown(20_000, (row) => `SUM(A$1:A${row})`),
  "countif-20000": () => filledDown(20_000, (row) => `COUNTIF(A:A,A${row})`),
  "unique-20000": () => formula("SUM(_xlfn.UNIQUE(_xlfn.SEQUENCE(20000)))"),
  "search-stars": () => formula(`SEARCH("${"*a".repeat(60)}*b",REPT("a",32767))`),
  "mode-2000000": () => formula("MODE(_xlfn.SEQUENCE(2000000))"),
  "cycle-indirect-3000": () => {
    const rows = times(
      3_000,
      (row) =>
        `<row r="${row + 1}"><c r="A${row + 1}"><f>INDIRECT("A${((row + 1) % 3_000) + 1}")</f><v>1</v></c></row>`,
    );
    return sheetOf(rows.join(""));
  },
  "indirect-long": () => formula('INDIRECT(REPT("A1:",10000)&"A1")'),
  "indirect-quotes": () => formula(`INDIRECT(REPT("'",32001))`),
  "formulas-130000-colour-below": () => {
    const rows = times(
      13_000,
      (row) =>
        `<row r="${row + 1}">${times(10, (column) => `<c r="${letters(column)}${row + 1}"><f>ROW()</f><v>${row + 1}</v></c>`).join("")}</row>`,
    );
    const styles =
      '<fonts count="1"><font/></fonts><fills count="3"><fill/><fill/><fill><patternFill patternType="solid"><fgColor rgb="FFFF0000"/></patternFill></fill></fills>' +
      '<borders count="1"><border/></borders><cellXfs count="2"><xf/><xf fillId="2" applyFill="1"/></cellXfs>';
    return sheetOf(`${rows.join("")}<row r="13400"><c r="A13400" s="1"/></row>`, { styles });
  },
  // Depth and length.
  "plus-2700": () => formula(times(2_700, () => "A2").join("+")),
  "plus-5000": () => formula(times(5_000, () => "A2").join("+")),
  "minus-5000": () => formula(`${"-".repeat(5_000)}1`),
  "unions-5000": () => formula(`SUM((${times(5_000, () => "A1").join(",")}))`),
  "quotes-40000": () => formula("'".repeat(40_000)),
  "brackets-40000": () => formula("[".repeat(40_000)),
  "literal-10MB": () => formula(`"${"a".repeat(1e7)}"`),
  "formula-10MB-brackets": () => formula("[".repeat(1e7)),
  "formula-10MB-ones": () => formula("1+".repeat(5e6) + "1"),
  "format-50000-brackets": () =>
    sheetOf(
      '<row r="1"><c r="A1" s="1"><f>1234.5678+1</f><v>1235.5678</v></c><c r="B1" s="1"><v>-1e300</v></c></row>',
      {
        styles: `<numFmts count="1"><numFmt numFmtId="164" formatCode="${"[".repeat(50_000)}"/></numFmts><cellXfs count="2"><xf/><xf numFmtId="164" applyNumberFormat="1"/></cellXfs>`,
      },
    ),
  // Size.
  "string-32767-in-20000-cells": () => tensOf(2_000, (address) => `<c r="${address}" t="s"><v>0</v></c>`, text32767),
  "text-32767-in-20000-cells": () =>
    tensOf(
      2_000,
      (address) =>
        address === "A1" ? '<c r="A1" t="s"><v>0</v></c>' : `<c r="${address}" t="str"><f>$A$1</f><v>a</v></c>`,
      text32767,
    ),
  "comment-of-100MB-dashes": () => hundredMegabytes("<!--", "- ", "-->"),
  "cdata-of-100MB-brackets": () =>
    hundredMegabytes('<row r="1"><c r="A1" t="str"><v><![CDATA[', "]", "]]></v></c></row>"),
  "pi-of-100MB": () => hundredMegabytes("<?x ", "?", "?>"),
  "number-of-100MB": () => hundredMegabytes('<row r="1"><c r="A1"><v>', "1", "x</v></c></row>"),
  "one-part-for-1000-sheets": () => withSheetsOfOnePart(1_000, 26_000),
  "one-part-for-100000-sheets": () => withSheetsOfOnePart(100_000, 1),
  // Parts that are not what they say.
  "sheet-of-unknown-relationship": () => otherSheet("unknown"),
  "sheet-of-chartsheet-relationship": () => otherSheet("chartsheet"),
  "sheet-part-is-html": () =>
    packageOf({ sheets: [""], parts: { "xl/worksheets/sheet1.xml": strToU8("<html><body>hello</body></html>") } }),
  "sheet-part-is-shared-strings": () =>
    packageOf({
      sheets: [""],
      strings: "<si><t>x</t></si>",
      parts: workbookLinks(link("rId1", "worksheet", "sharedStrings.xml")),
    }),
  "formula-of-unknown-type": () => packageOf({ sheets: [cell('<f t="null" si="2"/><v>3</v>')] }),
  "directory-count-too-small": () => withTooSmallCount(formula("1+1", {}, "2")),
  "sheets-of-the-same-name": () =>
    packageOf({
      sheets: [cell("<v>1</v>"), cell("<v>2</v>"), cell("<f>S!A1</f><v>1</v>")],
      sheetNames: ["S", "S", "R"],
    }),
  "name-defined-twice": () =>
    formula(
      "x_",
      named([
        ["x_", "1"],
        ["x_", "2"],
      ]),
      "1",
    ),
  "local-sheet-out-of-range": () =>
    formula(
      "x_",
      { workbook: '<definedNames><definedName name="x_" localSheetId="7">1</definedName></definedNames>' },
      "1",
    ),
  "style-that-does-not-exist": () => sheetOf('<row r="1"><c r="A1" s="99"><f>1+1</f><v>2</v></c></row>'),
  // Names of every object.
  "drawing-element-toString": () => drawing("<xdr:toString/>"),
  "drawing-element-constructor": () => drawing("<xdr:constructor><a:t>x</a:t></xdr:constructor>"),
  // Terminal.
  "terminal-escapes": () =>
    packageOf({
      sheets: terminal.map(() => `<sheetData>${terminalRows}</sheetData>`),
      sheetNames: terminal.map((words, index) => `${index}${escaped(words)}`),
      ...named(terminal.map((words, index) => [`n${index}${escaped(words)}`, "1"] as const)),
    }),
  "terminal-spoof": () =>
    packageOf({
      sheets: ['<sheetData><row r="1"><c r="A1"><v>5</v></c><c r="B1"><f>A1*2</f><v>3</v></c></row></sheetData>'],
      sheetNames: [spoof],
    }),
};
