import { strFromU8, strToU8, zipSync } from "fflate";
import { expect, it } from "vitest";
import { openWorkbook } from "../../../src/workbook/index";
import { cellOf } from "./book-of";
import { packageOf, partsOf, sheetOf, strict, transitional } from "./package";

it("tables with an alternative text, which is in an extension of the table's own name", () => {
  const table =
    `<table xmlns="${transitional.main}" name="T" displayName="Readings" ref="A1:A3">` +
    '<tableColumns><tableColumn name="Pressure"/></tableColumns><extLst><ext uri="{504A1905-F514-4f6f-8877-14C23A59335A}">' +
    '<x14:table xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" altText="Readings of the day"/></ext></extLst></table>';
  const { book } = openWorkbook(
    packageOf({
      sheets: ["<sheetData/>"],
      sheetLinks: { 0: `<Relationship Id="rId1" Type="${transitional.links}/table" Target="../tables/table1.xml"/>` },
      parts: { "xl/tables/table1.xml": strToU8(table) },
    }),
  );
  expect(book.tables.map(({ name }) => name)).toEqual(["Readings"]);
});

it("several relationships without an id", () => {
  const parts = partsOf({ sheets: ["<sheetData/>"] });
  const name = "xl/_rels/workbook.xml.rels";
  const more = `<Relationship Id="" Type="${transitional.links}/theme" Target="theme1.xml"/>`;
  const links = strFromU8(parts[name] as Uint8Array).replace("</Relationships>", `${more}${more}</Relationships>`);
  expect(openWorkbook(zipSync({ ...parts, [name]: strToU8(links) })).book.sheets).toHaveLength(1);
});

it("durations and early dates of strict files, the dates with a caution", () => {
  const texts = ["PT12H", "P1DT6H", "26:30:00", "-PT6H", "PT0.5S", "1899-12-30", "1899-12-30T12:00:00", "1900-02-01"];
  const rows = `<row r="1">${texts.map((text) => `<c t="d"><v>${text}</v></c>`).join("")}</row>`;
  const { book, cautions } = openWorkbook(sheetOf(rows, { words: strict }));
  const values = ["A1", "B1", "C1", "D1", "E1", "F1", "G1", "H1"].map((address) => cellOf(book, address)?.value);
  expect(values).toEqual([0.5, 1.25, 26.5 / 24, -0.25, 0.5 / 86_400, 0, 0.5, 32]);
  expect(cautions).toEqual([
    'the sheet "Sheet1" has dates before March 1900 in ISO form, which versions of Excel write one day apart: 3 cells, the first F1',
  ]);
});
