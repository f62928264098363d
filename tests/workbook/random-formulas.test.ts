import { expect, it } from "vitest";
import { compareWithStored, evaluateBook, openWorkbook } from "../../src/workbook/index";
import { ErrorValue, type Book, type CellValue } from "../../src/workbook/model";
import { recomputedByLibreOffice } from "../samples/libre-office";
import { slow } from "../time-outs";
import { isExplained, randomFormulas } from "./random-formulas";
import { sheetOf } from "./file/package";

/** `RANDOM_FORMULAS=100000 npx vitest run …` tries as many as are asked for. */
const count = Number(process.env["RANDOM_FORMULAS"] ?? 3000);

it("random formulas give what LibreOffice gives, but for differences that are explained", { timeout: slow }, () => {
  const formulas = randomFormulas(count, 20_261_130);
  const escaped = (text: string): string =>
    text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
  const rows = formulas.map((text, row) => `<row r="${row + 1}"><c r="A${row + 1}"><f>${escaped(text)}</f></c></row>`);
  const [bytes] = recomputedByLibreOffice(new Map([["random.xlsx", sheetOf(rows.join(""))]])).values();
  const { book } = openWorkbook(bytes as Uint8Array);
  const stored = [...(book.sheets[0]?.cells.values() ?? [])];
  expect(stored).toHaveLength(count);
  // Evaluated from the formulas as written here: LibreOffice writes some of them in another way.
  const own = openWorkbook(sheetOf(rows.join(""))).book;
  const cells = new Map(
    [...(own.sheets[0]?.cells ?? [])].map(([key, cell]) => [
      key,
      { ...cell, value: book.sheets[0]?.cells.get(key)?.value ?? null },
    ]),
  );
  const joined: Book = { ...own, sheets: own.sheets.map((sheet) => ({ ...sheet, cells })) };
  const evaluation = evaluateBook(joined, { limits: { steps: Infinity, bytes: Infinity } });
  const evaluated = evaluation.cells.filter(({ outcome }) => outcome.evaluated).length;
  const differences = compareWithStored(joined, evaluation)
    .filter(({ row, stored: theirs, computed }) => !isExplained(formulas[row] ?? "", computed, theirs))
    .map(
      ({ row, stored: theirs, computed }) => `${formulas[row] ?? ""}: ${show(computed)}, LibreOffice ${show(theirs)}`,
    );
  expect(differences).toEqual([]);
  expect(evaluated).toBeGreaterThan(0.75 * count);
});

const show = (value: CellValue): string => (value instanceof ErrorValue ? value.code : JSON.stringify(value));
