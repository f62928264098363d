import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import { buildCellKey, openWorkbook, writeBack, type CellValue } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { partsOf, packed } from "../../samples/parts";
import { issued } from "../issue-copy/issued";
import { slow } from "../../time-outs";

const bytes = new Uint8Array(readFileSync(new URL("../../../sample-workbooks/final-test.xlsx", import.meta.url)));
const { opened, mark, bytes: copyBytes } = issued(bytes);
const { book } = opened;
const addIn = addInRegistry();
const now = new Date(2026, 10, 20);

function findings(sheetName: string, row: number, column: number, change: (value: CellValue) => CellValue) {
  const sheet = book.sheets.findIndex(({ name }) => name === sheetName);
  const value = change(book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null);
  return verifyWorkbook(openWorkbook(writeBack(opened, [{ sheet, row, column, value }])), addIn, now).findings;
}

const kinds = (found: ReturnType<typeof findings>, severity: string) =>
  [...new Set(found.filter((one) => one.severity === severity).map(({ kind }) => kind))].sort();

it(
  "an issue copy as it was issued is recognised, and nothing else is said of it than of the workbook itself",
  { timeout: slow },
  () => {
    const copy = verifyWorkbook(opened, addIn, now);
    const original = verifyWorkbook(openWorkbook(bytes), addIn, now);
    const others = copy.findings.filter(({ kind }) => kind !== "issue copy");
    expect(others).toEqual(original.findings);
    expect(copy.findings.find(({ kind }) => kind === "issue copy")).toMatchObject({ severity: "note" });
    expect(copy.addInCells).toBe(original.addInCells);
  },
);

it(
  "one reading changed in it is told of: the copy is not the one issued, and frozen results no longer follow",
  { timeout: slow },
  () => {
    const typed = [...(book.sheets.find(({ name }) => name === "Depressurization")?.cells.values() ?? [])];
    // A reading of the first row: a pressure difference below −60 Pa.
    const reading = typed.find(({ value, formula }) => !formula && typeof value === "number" && value < -60);
    const found = findings("Depressurization", reading?.row ?? -1, reading?.column ?? -1, (value) => Number(value) - 1);
    expect(kinds(found, "error")).toEqual(expect.arrayContaining(["issue copy", "old result"]));
    const said = found.find(({ kind }) => kind === "issue copy")?.what;
    expect(said).toContain("has been changed since");
    expect(said).toMatch(/It was last saved by \w+\.$/);
    expect(
      found.filter(({ kind }) => kind === "old result").some(({ place }) => place.startsWith("Depressurization!")),
    ).toBe(true);
  },
);

it("a frozen result changed in it is told of, with its cell", { timeout: slow }, () => {
  const [first] = mark.formulas.filter(
    ({ area, formula }) => area.top === area.bottom && area.left === area.right && formula.includes("AIRDENSITY"),
  );
  const found = findings(
    first?.sheet ?? "",
    first?.area.top ?? -1,
    first?.area.left ?? -1,
    (value) => Number(value) * 1.01,
  );
  expect(kinds(found, "error")).toEqual(expect.arrayContaining(["issue copy", "old result"]));
});

it("a formula changed in its list is told of", { timeout: slow }, () => {
  const found = findings("Frozen formulas", 11, 6, (value) => (typeof value === "string" ? `${value}+0` : ""));
  expect(kinds(found, "error")).toContain("issue copy");
});

it("a copy whose fingerprint has another form is not called unchanged", { timeout: slow }, () => {
  const found = findings("Frozen formulas", 7, 3, () => "2");
  expect(found.find(({ kind }) => kind === "issue copy")).toMatchObject({ severity: "warning" });
});

it("a copy whose sheet with the mark was deleted is told of", { timeout: slow }, () => {
  const names = book.names.map((name) => ({ ...name, text: name.text.replace("'Frozen formulas'", "#REF") }));
  const sheets = book.sheets.slice(0, -1);
  const { findings: found } = verifyWorkbook({ ...opened, book: { ...book, sheets, names } }, addIn, now);
  expect(found.find(({ kind }) => kind === "issue copy")).toMatchObject({ severity: "error" });
});

it(
  "a copy that lost the names by which its mark is found is told of, though its sheet still stands",
  { timeout: slow },
  () => {
    const names = book.names.filter(({ name }) => !name.startsWith("Stillair"));
    expect(names.length).toBeLessThan(book.names.length);
    const { findings: found } = verifyWorkbook({ ...opened, book: { ...book, names } }, addIn, now);
    expect(found.find(({ kind }) => kind === "issue copy")).toMatchObject({ severity: "error" });
  },
);

it("a note that was written into a copy is no change of it, and is counted", { timeout: slow }, () => {
  const parts = partsOf(copyBytes);
  const rels = "xl/worksheets/_rels/sheet1.xml.rels";
  const kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments";
  parts.set(
    rels,
    (parts.get(rels) ?? "").replace(
      "</Relationships>",
      `<Relationship Id="rIdNote" Type="${kind}" Target="../comments1.xml"/></Relationships>`,
    ),
  );
  parts.set(
    "xl/comments1.xml",
    '<comments xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><authors><author>A. Nother</author></authors><commentList>' +
      '<comment ref="D15" authorId="0"><text><t>In truth it was 0.45.</t></text></comment></commentList></comments>',
  );
  const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml";
  const types = "[Content_Types].xml";
  parts.set(
    types,
    (parts.get(types) ?? "").replace(
      "</Types>",
      `<Override PartName="/xl/comments1.xml" ContentType="${type}"/></Types>`,
    ),
  );
  const said = (bytesOfCopy: Uint8Array) =>
    verifyWorkbook(openWorkbook(bytesOfCopy), addIn, now).findings.find(({ kind: one }) => one === "issue copy");
  const noted = said(packed(parts));
  expect(noted).toMatchObject({ severity: "note" });
  expect(noted?.why).toContain("its 1 comment may have been written later");
  expect(said(copyBytes)?.why).not.toContain("written later");
});
