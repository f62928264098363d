import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../../../src/workbook/index";
import { bookOf } from "../book-of";
import { packageOf, partsOf, sheetOf, transitional, type PackageOptions } from "../package";
import { expectProblem, sound } from "./bad-files";

const cell = "<sheetData><row><c><f>1+1</f><v>3</v></c></row></sheetData>";

/** A workbook whose sheets are linked as the given kinds of the given parts. */
function linked(links: readonly (readonly [kind: string, target: string])[], options: Partial<PackageOptions> = {}) {
  const link = ([kind, target]: readonly [string, string], index: number): string =>
    `<Relationship Id="rId${index + 1}" Type="${transitional.links}/${kind}" Target="${target}"/>`;
  const rels = strToU8(`<Relationships>${links.map(link).join("")}</Relationships>`);
  const sheets = links.map(() => cell);
  return packageOf({ sheets, ...options, parts: { "xl/_rels/workbook.xml.rels": rels, ...options.parts } });
}

describe("a sheet that is not what it says", () => {
  it.each(["", "Worksheet", "slide", "worksheets"])("its relationship is of the kind “%s”", (kind) =>
    expectProblem(
      linked([[kind, "worksheets/sheet1.xml"]]),
      "damaged",
      /^the sheet "Sheet1" is of the unknown kind ".*"$/,
    ),
  );

  it.each([
    ["worksheet", "<html><sheetData/></html>", /root element is <html> where <worksheet> is expected/],
    ["worksheet", "<sst/>", /root element is <sst>/],
    ["worksheet", "<x:chartsheet xmlns:x='x'/>", /root element is <x:chartsheet>/],
    ["chartsheet", `<worksheet>${cell}</worksheet>`, /root element is <worksheet> where <chartsheet>/],
    ["xlMacrosheet", `<worksheet>${cell}</worksheet>`, /where <macrosheet>/],
  ])("as a %s, its part holds %s", (kind, part, words) =>
    expectProblem(
      linked([[kind, "worksheets/sheet1.xml"]], { parts: { "xl/worksheets/sheet1.xml": strToU8(part) } }),
      "broken XML",
      words,
    ),
  );

  it("opens the kinds that there are, those without cells empty", () => {
    const roots = ["worksheet", "macrosheet", "macrosheet", "chartsheet", "dialogsheet"];
    const kinds = ["worksheet", "xlMacrosheet", "xlIntlMacrosheet", "chartsheet", "dialogsheet"];
    const parts = Object.fromEntries(
      roots.map((root, index) => [
        `xl/worksheets/sheet${index + 1}.xml`,
        strToU8(`<x:${root} xmlns:x="x">${cell}</x:${root}>`),
      ]),
    );
    const links = kinds.map((kind, index) => [kind, `worksheets/sheet${index + 1}.xml`] as const);
    const { sheets } = openWorkbook(linked(links, { parts })).book;
    expect(sheets.map(({ cells }) => cells.size)).toEqual([1, 1, 1, 0, 0]);
  });

  it.each([
    ["xl/workbook.xml", { parts: { "xl/workbook.xml": strToU8("<book><sheets><sheet name='a'/></sheets></book>") } }],
    ["xl/sharedStrings.xml", { strings: "", parts: { "xl/sharedStrings.xml": strToU8("<worksheet/>") } }],
    ["xl/styles.xml", { styles: "", parts: { "xl/styles.xml": strToU8("<theme/>") } }],
  ])("nor is %s", (name, options) => {
    expectProblem(sheetOf("", options), "broken XML", new RegExp(`^${name} .*root element is`));
  });
});

describe("what is there twice", () => {
  it("one part for two sheets, however it is written", () =>
    expectProblem(
      linked([
        ["worksheet", "worksheets/sheet1.xml"],
        ["worksheet", "/xl/Worksheets/SHEET1.xml"],
      ]),
      "damaged",
      /^the sheet "Sheet2" has the part xl\/Worksheets\/SHEET1\.xml, which another sheet has too$/,
    ));

  it("one relationship", () => {
    const links = ["sheet1", "sheet2"].map(
      (name) => `<Relationship Id="rId1" Type="${transitional.links}/worksheet" Target="worksheets/${name}.xml"/>`,
    );
    const parts = { "xl/_rels/workbook.xml.rels": strToU8(`<Relationships>${links.join("")}</Relationships>`) };
    expectProblem(sheetOf("", { parts }), "damaged", /relationship "rId1" twice/);
  });

  it("one name of sheets, in whatever letters", () =>
    expectProblem(
      packageOf({ sheets: [cell, cell], sheetNames: ["Räume", "RÄUME"] }),
      "damaged",
      /^two sheets have the name "RÄUME"$/,
    ));

  const named = (names: string): Partial<PackageOptions> => ({ workbook: `<definedNames>${names}</definedNames>` });
  const name = (attributes: string, text = "1"): string => `<definedName ${attributes}>${text}</definedName>`;

  it("one defined name of the workbook or of a sheet", () => {
    expectProblem(
      sheetOf("", named(name('name="Volume"') + name('name="VOLUME"', "2"))),
      "damaged",
      /^the name "VOLUME" is/,
    );
    const ofSheet = name('name="a" localSheetId="0"');
    expectProblem(sheetOf("", named(ofSheet + ofSheet)), "damaged", /^the name "a" is defined twice$/);
    expect(bookOf("", named(ofSheet + name('name="a"'))).names).toHaveLength(2);
  });

  it("one name of tables", () => {
    const table = (displayName: string): Uint8Array => strToU8(`<table displayName="${displayName}" ref="A1:A2"/>`);
    const parts = { "xl/tables/table1.xml": table("Logs"), "xl/tables/table2.xml": table("logs") };
    const links = ["table1", "table2"].map(
      (one) => `<Relationship Id="${one}" Type="${transitional.links}/table" Target="../tables/${one}.xml"/>`,
    );
    expectProblem(
      sheetOf("", { parts, sheetLinks: { 0: links.join("") } }),
      "damaged",
      /^two tables have the name "logs"$/,
    );
  });

  it.each(["1", "-1", "x", "", "1e0", "4294967296"])(
    "a name of the sheet %s of one is left out, with a caution",
    (id) => {
      const names = name(`name="Lost" localSheetId="${id}"`) + name('name="Kept" localSheetId="0"');
      const { book, cautions } = openWorkbook(sheetOf("", named(names)));
      expect(book.names.map((one) => one.name)).toEqual(["Kept"]);
      expect(cautions).toEqual([
        `the workbook has names that belong to missing sheets: 1, the first "Lost" (localSheetId ${id}); they are ignored`,
      ]);
    },
  );
});

describe("a style that does not exist", () => {
  const cells = (style: string): string =>
    `<row><c/><c s="${style}"><v>1</v></c><c s="${style}"/><c s="${style}"><v>2</v></c></row>`;
  const styles = '<cellXfs><xf numFmtId="0"/><xf numFmtId="10"/></cellXfs>';

  it.each(["2", "-1", "0.5", "toString", "__proto__"])("%s", (style) => {
    const { book, cautions } = openWorkbook(sheetOf(cells(style), { styles }));
    expect([...(book.sheets[0]?.cells.values() ?? [])].map(({ format }) => format)).toEqual(["General", "General"]);
    expect(cautions).toEqual([
      `the sheet "Sheet1" has cells of a style that does not exist: 2, the first B1 (style ${style}); they are treated as unformatted`,
    ]);
  });

  it("is none where the style exists, or is the only one of a workbook without styles", () => {
    expect(openWorkbook(sheetOf(cells("1"), { styles })).cautions).toEqual([]);
    expect(openWorkbook(sheetOf(cells("0"))).cautions).toEqual([]);
  });
});

it.each(["null", "", "A1", "Shared", "toString"])("a formula of the unknown type “%s”", (type) =>
  expectProblem(
    sheetOf(`<row><c r="A1"><f t="${type}" si="2"/><v>3</v></c></row>`),
    "damaged",
    new RegExp(`the cell A1 has a formula of the unknown type "${type}"$`),
  ),
);

describe("a directory that lists fewer entries than there are", () => {
  const endAt = sound.length - 22;
  const withEnd = (change: (view: DataView) => void): Uint8Array => {
    const bytes = sound.slice();
    change(new DataView(bytes.buffer));
    return bytes;
  };
  const view = new DataView(sound.buffer);
  const count = view.getUint16(endAt + 10, true);
  const size = view.getUint32(endAt + 12, true);
  const lastRecord = 46 + "xl/worksheets/sheet1.xml".length;

  it.each([
    ["both counts", (end: DataView) => [8, 10].forEach((at) => end.setUint16(endAt + at, count - 1, true))],
    ["the count on this disk", (end: DataView) => end.setUint16(endAt + 8, count - 1, true)],
    ["the whole count", (end: DataView) => end.setUint16(endAt + 10, count - 1, true)],
    [
      "both counts and its size",
      (end: DataView) => {
        [8, 10].forEach((at) => end.setUint16(endAt + at, count - 1, true));
        end.setUint32(endAt + 12, size - lastRecord, true);
      },
    ],
  ])("by %s", (_, change) => expectProblem(withEnd(change), "damaged", /directory/));

  it("more than 65 535 entries, which the count cannot tell", () => {
    const parts: Record<string, Uint8Array> = { ...partsOf({ sheets: [cell] }) } as Record<string, Uint8Array>;
    const known = Object.keys(parts).length;
    for (let index = 0; index < 65_536 + 8 - known; index++) parts[`x/${index}`] = new Uint8Array(0);
    expectProblem(
      zipSync(parts, { level: 0 }),
      "damaged",
      /counts 8 entries, but its directory holds a different number/,
    );
  });

  it("opens where a digital signature follows the directory", () => {
    const signature = new Uint8Array(6);
    new DataView(signature.buffer).setUint32(0, 0x05054b50, true);
    const bytes = new Uint8Array([...sound.subarray(0, endAt), ...signature, ...sound.subarray(endAt)]);
    expect(openWorkbook(bytes).book.sheets).toHaveLength(1);
  });
});
