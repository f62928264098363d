import { strFromU8, strToU8, zipSync } from "fflate";
import { expect, it } from "vitest";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { runRecalcCommand } from "../../../src/cli/recalc/command";
import { evaluateBook, openWorkbook } from "../../../src/workbook/index";
import { listening } from "../../cli/listening";
import { read } from "../formula/book";
import { partsOf, transitional } from "./package";

const formulas: Readonly<Record<string, string>> = {
  A1: "[1]Prices!B2*2",
  A2: "SUM([1]Prices!B2:B9)",
  A3: "VLOOKUP(&quot;tape&quot;,'[1]Prices'!$A$2:$B$9,2,FALSE)",
  A4: "[1]!Rate+1",
  A5: "[1]Old!A1",
  A6: "SUMIF([1]Prices!B2:B9,&quot;&gt;4&quot;)",
  A7: "[2]Sheet1!A1",
  A8: "Rate2",
  A9: "[0]!Own",
};

/** A workbook that reads prices from another one, of which it keeps some values. */
function linked(): Uint8Array {
  const cells = Object.entries(formulas).map(
    ([address, text]) => `<row r="${address.slice(1)}"><c r="${address}"><f>${text}</f><v>1</v></c></row>`,
  );
  const parts = partsOf({
    sheets: [`<sheetData>${cells.join("")}</sheetData>`],
    workbook:
      '<externalReferences><externalReference r:id="other"/></externalReferences>' +
      '<definedNames><definedName name="Rate2">[1]Prices!$B$3</definedName><definedName name="Own">41+1</definedName></definedNames>',
  });
  const workbookLinks = strFromU8(parts["xl/_rels/workbook.xml.rels"] as Uint8Array).replace(
    "</Relationships>",
    `<Relationship Id="other" Type="${transitional.links}/externalLink" Target="externalLinks/externalLink1.xml"/></Relationships>`,
  );
  const link =
    `<externalLink xmlns="${transitional.main}" xmlns:r="${transitional.links}"><externalBook r:id="rId1">` +
    '<sheetNames><sheetName val="Prices"/><sheetName val="Old"/></sheetNames>' +
    '<definedNames><definedName name="Rate" refersTo="=Prices!$B$3"/></definedNames>' +
    '<sheetDataSet><sheetData sheetId="0"><row r="2"><cell r="A2" t="str"><v>tape</v></cell><cell r="B2"><v>4.5</v></cell></row>' +
    '<row r="3"><cell r="A3" t="str"><v>foam</v></cell><cell r="B3"><v>3</v></cell></row></sheetData>' +
    '<sheetData sheetId="1" refreshError="1"><row r="1"><cell r="A1"><v>7</v></cell></row></sheetData></sheetDataSet></externalBook></externalLink>';
  const linkTarget =
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">' +
    `<Relationship Id="rId1" Type="${transitional.links}/externalLinkPath" Target="file:///C:/Offers/prices.xlsx" TargetMode="External"/></Relationships>`;
  return zipSync({
    ...parts,
    "xl/_rels/workbook.xml.rels": strToU8(workbookLinks),
    "xl/externalLinks/externalLink1.xml": strToU8(link),
    "xl/externalLinks/_rels/externalLink1.xml.rels": strToU8(linkTarget),
  });
}

it("values of other workbooks are those that the file keeps", () => {
  const { book } = openWorkbook(linked());
  const evaluation = evaluateBook(book);
  const values = Object.fromEntries(Object.keys(formulas).map((address) => [address, read(book, evaluation, address)]));
  expect(values).toEqual({
    A1: 9,
    A2: 7.5,
    A3: 4.5,
    A4: 4,
    A5: "not evaluated: no values are kept here of the other workbook prices.xlsx",
    A6: "not evaluated: SUMIF over another workbook, which Excel calculates only while that is open",
    A7: "not evaluated: it refers to another workbook",
    A8: 3,
    A9: 42,
  });
});

it("recalc says which cells read them, and of which workbook", () => {
  const folder = mkdtempSync(join(tmpdir(), "external-links-"));
  try {
    const path = join(folder, "linked.xlsx");
    writeFileSync(path, linked());
    const { output, heard } = listening();
    runRecalcCommand([path], output);
    expect(heard().out).toContain(
      "Caution: 5 cells (Sheet1!A1, Sheet1!A2, Sheet1!A3, Sheet1!A4 and 1 more) read other workbooks (prices.xlsx): " +
        "their values are those that this file kept when it was saved.",
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
