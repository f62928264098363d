import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { asStored, asTyped } from "../../../src/workbook/formula/parse/as-typed";
import {
  cellKey,
  compareWithStored,
  ErrorValue,
  evaluateBook,
  fingerprintOf,
  openWorkbook,
  readIssueMark,
  writeBack,
} from "../../../src/workbook/index";
import { frozenCells } from "../../../src/workbook/issue-copy/frozen-cells";
import { dynamicArrays, packageOf, strict, type PackageOptions } from "../file/package";
import { issue, issued } from "./issued";

const inline = (address: string, words: string) => `<c r="${address}" t="inlineStr"><is><t>${words}</t></is></c>`;
const call = (address: string, formula: string, value: string, range = address) =>
  `<c r="${address}" s="1" cm="1"><f t="array" ref="${range}">${formula}</f><v>${value}</v></c>`;
const rows = (...cells: string[]) =>
  `<sheetData>${cells.map((content, place) => `<row r="${place + 1}">${content}</row>`).join("")}</sheetData>`;
const styles =
  '<fonts count="1"><font><sz val="11"/></font></fonts><fills count="1"><fill><patternFill patternType="none"/></fill></fills>' +
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
  '<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="2" fontId="0" fillId="0" borderId="0"/></cellXfs>';

/** A house: its volume and flow, the air change rate by the add-in, its double by an ordinary formula. */
const house = (more: Partial<PackageOptions> = {}, rate = "0.6") =>
  packageOf({
    sheets: [
      rows(
        `${inline("A1", "Volume")}<c r="B1"><v>300</v></c>`,
        `${inline("A2", "Flow")}<c r="B2"><v>180</v></c>`,
        `${inline("A3", "Air change rate")}${call("B3", "_xldudf_STILLAIR_AIRCHANGERATE(B2,B1)", rate)}`,
        `${inline("A4", "Double")}<c r="B4"><f>B3*2</f><v>1.2</v></c>`,
      ),
    ],
    sheetNames: ["House"],
    metadata: dynamicArrays,
    styles,
    ...more,
  });

const text = (bytes: Uint8Array, name: string) => new TextDecoder().decode(unzipSync(bytes)[name]);

describe("what is frozen", () => {
  const frozenIn = (sheet: string, workbook = "") =>
    issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles, workbook })).mark.formulas.map(
      ({ area, kind, formula }) => `${area.top + 1}:${area.left + 1} ${kind} ${formula}`,
    );

  it("is what calls the add-in, by itself, in the midst of a formula, or by a name", () => {
    expect(
      frozenIn(
        rows(
          `${call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100")}<c r="B1"><f>_xldudf_STILLAIR_LEAKAGEFLOW(2,1,25)+1</f><v>51</v></c>`,
          `<c r="A2"><f>Flow+A1</f><v>200</v></c><c r="B2"><f>Plain+A1</f><v>105</v></c>`,
        ),
        '<definedNames><definedName name="Flow">_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)</definedName><definedName name="Plain">5</definedName></definedNames>',
      ),
    ).toEqual([
      "1:1 spilling =STILLAIR.LEAKAGEFLOW(2,1,50)",
      "1:2 one cell =STILLAIR.LEAKAGEFLOW(2,1,25)+1",
      "2:1 one cell =Flow+A1",
    ]);
  });

  it("is what takes the whole of a frozen array, which a value no longer has, and no more", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_INDUCEDPRESSURE(C1:C2,-2)", "-48", "A1:A2")}<c r="C1"><v>-50</v></c><c r="D1"><f>SUM(_xlfn.ANCHORARRAY(A1))</f><v>-76</v></c><c r="E1"><f>SUM(A1:A2)</f><v>-76</v></c>`,
      '<c r="A2" s="1"><v>-28</v></c><c r="C2"><v>-30</v></c>',
    );
    expect(frozenIn(sheet)).toEqual(["1:1 spilling =STILLAIR.INDUCEDPRESSURE(C1:C2,-2)", "1:4 one cell =SUM(A1#)"]);
  });

  it("is found though two names mean each other without an end", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100")}<c r="B1"><f>_xlfn.ANCHORARRAY(Here)</f><v>1</v></c>`,
    );
    const names =
      '<definedNames><definedName name="Here">There</definedName><definedName name="There">Here</definedName></definedNames>';
    const book = openWorkbook(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles, workbook: names })).book;
    expect(frozenCells(book).map(({ formula }) => formula.text)).toEqual(["_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)"]);
  });

  it("keeps its look, and what an array had filled becomes plain values", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_INDUCEDPRESSURE(C1:C2,-2)", "-48", "A1:A2")}<c r="C1"><v>-50</v></c>`,
      '<c r="A2" s="1"><v>-28</v></c><c r="C2"><v>-30</v></c>',
    );
    const { bytes } = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    expect(text(bytes, "xl/worksheets/sheet1.xml")).toContain('<c r="A1" s="1"><v>-48</v></c>');
    expect(text(bytes, "xl/worksheets/sheet1.xml")).toContain('<c r="A2" s="1"><v>-28</v></c>');
  });

  it("keeps an empty text as one: a blank cell would count otherwise in the formulas that are left", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_INDUCEDPRESSURE(C1:C3,-2)", "-48", "A1:A3")}<c r="B1"><f>COUNTA(A1:A3)</f><v>3</v></c><c r="C1"><v>-50</v></c>`,
      '<c r="A2" s="1" t="str"><v></v></c>',
      '<c r="A3" s="1"><v>-28</v></c><c r="C3"><v>-30</v></c>',
    );
    const { opened } = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    expect(opened.book.sheets[0]?.cells.get(cellKey(1, 0))?.value).toBe("");
    expect(compareWithStored(opened.book, evaluateBook(opened.book))).toEqual([]);
  });

  it("keeps a text as a text and an error as an error", () => {
    const sheet = rows(
      '<c r="A1" cm="1" t="str"><f t="array" ref="A1">_xldudf_STILLAIR_METHODVERSION()</f><v>1.0.0</v></c>' +
        '<c r="B1" cm="1" t="e"><f t="array" ref="B1">_xldudf_STILLAIR_LEAKAGEFLOW(NA(),1,50)</f><v>#N/A</v></c>',
    );
    const { opened } = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    expect(opened.book.sheets[0]?.cells.get(cellKey(0, 0))).toMatchObject({ value: "1.0.0" });
    expect(opened.book.sheets[0]?.cells.get(cellKey(0, 1))?.value).toEqual(new ErrorValue("#N/A"));
  });
});

describe("no copy is issued", () => {
  it("where a stored value is not what the formula gives", () => {
    expect(issue(house({}, "0.55"))).toEqual({ reason: "stored values differ", cells: ["House!B3"] });
  });

  it("where a cell cannot be evaluated, unless it may keep its stored value", () => {
    const odd = (formula: string) =>
      house({
        sheets: [
          rows(
            call("A1", "_xldudf_STILLAIR_METHODVERSION()", "1.0.0").replace('s="1"', 't="str"'),
            `<c r="B2"><f>${formula}</f><v>7</v></c>`,
          ),
        ],
      });
    expect(issue(odd("NOSUCHFUNCTION(1)"))).toMatchObject({ reason: "not evaluated" });
    expect(issued(odd("NOSUCHFUNCTION(1)"), { keepOldValues: true }).mark.formulas).toHaveLength(1);
    const foreign = issued(odd("_xldudf_OTHER_THING(1)"), { keepOldValues: true });
    expect(foreign.mark.formulas.map(({ formula }) => formula)).toContain("=OTHER.THING(1)");
  });

  it("where the stored value is #NAME?, which would stay, even if old values are kept", () => {
    const nameless = house({ sheets: [rows('<c r="B1" t="e"><f>_xldudf_OTHER_THING(1)</f><v>#NAME?</v></c>')] });
    expect(issue(nameless, { keepOldValues: true })).toEqual({ reason: "shows #NAME?", cells: ["House!B1"] });
  });

  it("of an issue copy, or of a workbook without the add-in", () => {
    expect(issue(issued(house()).bytes)).toMatchObject({ reason: "already issued" });
    expect(issue(packageOf({ sheets: [rows('<c r="A1"><v>1</v></c>')] }))).toMatchObject({
      reason: "nothing to freeze",
    });
  });
});

describe("the package", () => {
  it("keeps the protection of the workbook's structure, and leaves the calculation chain to Excel", () => {
    const chain =
      '<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="B3" i="1"/><c r="B4" i="1"/></calcChain>';
    const plain = unzipSync(house({ workbookStart: '<workbookProtection lockStructure="1"/>' }));
    const rels = new TextDecoder().decode(plain["xl/_rels/workbook.xml.rels"]);
    const types = new TextDecoder().decode(plain["[Content_Types].xml"]);
    const encode = (words: string) => new TextEncoder().encode(words);
    const withChain = house({
      workbookStart: '<workbookProtection lockStructure="1"/>',
      parts: {
        "xl/calcChain.xml": encode(chain),
        "xl/_rels/workbook.xml.rels": encode(
          rels.replace(
            "</Relationships>",
            '<Relationship Id="c" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain" Target="calcChain.xml"/></Relationships>',
          ),
        ),
        "[Content_Types].xml": encode(
          types.replace(
            "</Types>",
            '<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/></Types>',
          ),
        ),
      },
    });
    const parts = unzipSync(issued(withChain).bytes);
    expect(Object.keys(parts)).not.toContain("xl/calcChain.xml");
    expect(new TextDecoder().decode(parts["xl/_rels/workbook.xml.rels"])).not.toContain("calcChain");
    expect(new TextDecoder().decode(parts["[Content_Types].xml"])).not.toContain("calcChain");
    expect(new TextDecoder().decode(parts["xl/workbook.xml"])).toContain('<workbookProtection lockStructure="1"/>');
  });

  it("may be strict, or have no styles, names or collections of styles", () => {
    for (const more of [
      { words: strict },
      { styles: "" },
      { styles: "<fonts/><cellXfs/>" },
      { workbook: "<definedNames/>" },
    ]) {
      const { opened, mark } = issued(house(more));
      expect(opened.book.sheets.map(({ name }) => name)).toEqual(["House", "Frozen formulas"]);
      expect(mark.formulas).toHaveLength(1);
    }
    const without = packageOf({
      sheets: [rows(call("B1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100").replace(' s="1"', ""))],
      metadata: dynamicArrays,
    });
    expect(text(issued(without).bytes, "xl/styles.xml")).toContain("<cellXfs");
  });

  it("names the new sheet in the document's properties, behind the other sheets and before the names", () => {
    const properties = (titles: string, count = 1) =>
      '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties" xmlns:vt="http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes">' +
      `<HeadingPairs><vt:vector size="4" baseType="variant"><vt:variant><vt:lpstr>Arbeitsblätter</vt:lpstr></vt:variant><vt:variant><vt:i4>${count}</vt:i4></vt:variant>` +
      "<vt:variant><vt:lpstr>Benannte Bereiche</vt:lpstr></vt:variant><vt:variant><vt:i4>1</vt:i4></vt:variant></vt:vector></HeadingPairs>" +
      `<TitlesOfParts><vt:vector size="2" baseType="lpstr">${titles}</vt:vector></TitlesOfParts></Properties>`;
    const withProperties = (content: string) => {
      const plain = unzipSync(house());
      const rels = new TextDecoder().decode(plain["_rels/.rels"]);
      const link =
        '<Relationship Id="p" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/extended-properties" Target="docProps/app.xml"/></Relationships>';
      const encode = (words: string) => new TextEncoder().encode(words);
      const parts = {
        "docProps/app.xml": encode(content),
        "_rels/.rels": encode(rels.replace("</Relationships>", link)),
      };
      return text(issued(house({ parts })).bytes, "docProps/app.xml");
    };
    const fitting = "<vt:lpstr>House</vt:lpstr><vt:lpstr>Limit</vt:lpstr>";
    const after = withProperties(properties(fitting));
    expect(after).toContain("<vt:i4>2</vt:i4>");
    expect(after).toContain(
      '<vt:vector size="3" baseType="lpstr"><vt:lpstr>House</vt:lpstr><vt:lpstr>Frozen formulas</vt:lpstr><vt:lpstr>Limit</vt:lpstr></vt:vector>',
    );
    for (const odd of [properties(fitting.replace("House", "Other")), properties(fitting, 2), "<Properties/>"])
      expect(withProperties(odd)).toBe(odd);
  });

  it("takes another name where a sheet has it already", () => {
    expect(issued(house({ sheetNames: ["frozen FORMULAS"] })).sheetName).toBe("Frozen formulas 2");
  });
});

describe("the fingerprint", () => {
  const { opened, mark, bytes } = issued(house());
  const changed = (sheet: number, row: number, column: number, value: number | string | null) =>
    openWorkbook(writeBack(opened, [{ sheet, row, column, value }])).book;

  it("changes with a reading, a frozen value, a result, a label, with what the list says, and with the date", () => {
    const books = [
      changed(0, 0, 1, 301),
      changed(0, 2, 1, 0.59),
      changed(0, 3, 1, 1.1),
      changed(0, 0, 0, "Volumes"),
      changed(0, 8, 8, 1),
      changed(1, 11, 6, "=STILLAIR.AIRCHANGERATE(B2,B1)*1"),
      changed(1, 11, 7, 0.7),
      changed(1, 3, 3, "2026-11-07"),
      changed(1, 4, 3, "1.0.1"),
    ];
    for (const book of books) expect(fingerprintOf(book)).not.toBe(readIssueMark(book)?.fingerprint);
    expect(new Set(books.map(fingerprintOf)).size).toBe(books.length);
  });

  it("is the same for the same workbook on the same day, byte for byte", () => {
    expect(Buffer.compare(issued(house()).bytes, bytes)).toBe(0);
    expect(issued(house(), { issued: "2026-11-06" }).mark.fingerprint).not.toBe(mark.fingerprint);
  });

  it("does not change with the last digits of a result, nor with an empty text in a blank cell", () => {
    expect(fingerprintOf(changed(0, 3, 1, 1.2 * (1 + 2e-16)))).toBe(mark.fingerprint);
    expect(fingerprintOf(changed(0, 8, 8, ""))).toBe(mark.fingerprint);
  });

  it("changes with a defined name, but not with the print areas that programs add", () => {
    const named = (text: string, more = "") =>
      openWorkbook(
        issued(
          house({ workbook: `<definedNames><definedName name="Limit">${text}</definedName>${more}</definedNames>` }),
        ).bytes,
      ).book;
    const [one, other] = [named("0.6"), named("0.60")].map(fingerprintOf);
    expect(one).toBe(other);
    expect(fingerprintOf(named("0.7"))).not.toBe(one);
    const printed = named("0.6", '<definedName name="_xlnm.Print_Area" localSheetId="0">House!$A$1:$B$4</definedName>');
    expect(fingerprintOf(printed)).toBe(one);
  });

  it("does not change where a program saves a typed TRUE or #N/A as a formula that says just that", () => {
    const typed = (cells: string) =>
      house({ sheets: [rows(call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100"), cells)] });
    const copy = issued(typed('<c r="A2" t="b"><v>1</v></c><c r="B2" t="e"><v>#N/A</v></c>'));
    const { book } = copy.opened;
    const [sheet, list] = book.sheets;
    if (!sheet || !list) throw new Error("two sheets are needed");
    const savedAs = (texts: readonly string[]) => {
      const cells = new Map(sheet.cells);
      for (const [column, text] of texts.entries()) {
        const key = cellKey(1, column);
        cells.set(key, { ...cells.get(key)!, formula: { text } });
      }
      return fingerprintOf({ ...book, sheets: [{ ...sheet, cells }, list] });
    };
    expect(savedAs(["TRUE()", "#N/A"])).toBe(copy.mark.fingerprint);
    expect(savedAs(["TRUE", "NA()"])).not.toBe(copy.mark.fingerprint);
  });

  it("is not told where its form is of another version", () => {
    const foreign = openWorkbook(writeBack(opened, [{ sheet: 1, row: 7, column: 3, value: "4, edge 3" }])).book;
    expect(readIssueMark(opened.book)?.edge).toBeTypeOf("number");
    expect(readIssueMark(foreign)?.edge).toBeUndefined();
    expect(fingerprintOf(foreign)).toBe("");
  });

  it("leaves out what depends on the clock", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100")}<c r="B1"><f>TODAY()</f><v>46000</v></c><c r="C1"><f>B1+1</f><v>46001</v></c>`,
    );
    const clock = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    const later = openWorkbook(
      writeBack(clock.opened, [
        { sheet: 0, row: 0, column: 1, value: 46_100 },
        { sheet: 0, row: 0, column: 2, value: 46_101 },
      ]),
    );
    expect(fingerprintOf(later.book)).toBe(clock.mark.fingerprint);
  });

  it("is found again where the list's sheet was renamed and moved", () => {
    const [house_, list] = opened.book.sheets;
    if (!house_ || !list) throw new Error("two sheets are needed");
    const names = opened.book.names.map((name) => ({ ...name, text: name.text.replace("'Frozen formulas'", "List") }));
    const moved = { ...opened.book, sheets: [{ ...list, name: "List" }, house_], names };
    expect(readIssueMark(moved)).toMatchObject({ sheet: 0, fingerprint: mark.fingerprint });
    expect(fingerprintOf(moved)).toBe(mark.fingerprint);
  });
});

it.each([
  ["_xldudf_STILLAIR_PASSFAIL(A1,B1)", "=STILLAIR.PASSFAIL(A1,B1)"],
  [
    'IF(A1="_xldudf_STILLAIR_X(",[2]!_xldudf_STILLAIR_METHODVERSION(),"")',
    '=IF(A1="_xldudf_STILLAIR_X(",STILLAIR.METHODVERSION(),"")',
  ],
  ["_xlfn.ANCHORARRAY('Air leakage'!$B$2)", "='Air leakage'!$B$2#"],
  ['_FV(A1,"n50")*2', "=A1.n50*2"],
  ["_FV('Air leakage'!A1,\"C_L\")", "='Air leakage'!A1.C_L"],
])("%s is typed as %s, and stored so that it means the same", (stored, typed) => {
  expect(asTyped(stored)).toBe(typed);
  expect(asTyped(asStored(typed))).toBe(typed);
});
