import { readdirSync, readFileSync } from "node:fs";
import { formatCellAddress, ErrorValue, type Book, type Cell, openWorkbook } from "../../src/workbook/index";
import { formatAreaAddress } from "../../src/workbook/index";
import { excelBooks } from "../authorities/excel-workbooks/vectors";
import { dynamicArrays, packageOf } from "../workbook/file/package";
import { testSheet, testWorkbook } from "../workbook/graph/test-workbook";
import { house } from "../workbook/issue-copy/house";
import { issued } from "../workbook/issue-copy/issued";

/** A sound workbook that mutants are made of. */
export interface Seed {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

function cellXml({ row, column, value, formula }: Cell): string {
  const type =
    typeof value === "string" ? "str" : typeof value === "boolean" ? "b" : value instanceof ErrorValue ? "e" : "n";
  const shown = value instanceof ErrorValue ? value.code : typeof value === "boolean" ? Number(value) : (value ?? "");
  const place = `r="${formatCellAddress(row, column)}" t="${type}"${formula?.dynamic ? ' cm="1"' : ""}`;
  const array = formula?.array ? ` t="array" ref="${formatAreaAddress(formula.array)}"` : "";
  const text = formula ? `<f${array}>${escaped(formula.text)}</f>` : "";
  return `<c ${place}>${text}${value === null ? "" : `<v>${escaped(String(shown))}</v>`}</c>`;
}

/** A workbook of the cells, formulas and names that a book holds. */
function workbookOf({ sheets, names }: Book): Uint8Array {
  const contents = sheets.map(({ cells }) => {
    const rows = new Map<number, Cell[]>();
    for (const cell of cells.values()) rows.set(cell.row, [...(rows.get(cell.row) ?? []), cell]);
    const sorted = [...rows].sort(([one], [other]) => one - other);
    const inRow = (row: Cell[]) =>
      row
        .sort((one, other) => one.column - other.column)
        .map(cellXml)
        .join("");
    return `<sheetData>${sorted.map(([row, list]) => `<row r="${row + 1}">${inRow(list)}</row>`).join("")}</sheetData>`;
  });
  const defined = names.map(({ name, sheet, text }) => {
    const scope = sheet === undefined ? "" : ` localSheetId="${sheet}"`;
    return `<definedName name="${escaped(name)}"${scope}>${escaped(text)}</definedName>`;
  });
  return packageOf({
    sheets: contents,
    sheetNames: sheets.map(({ name }) => escaped(name)),
    workbook: defined.length > 0 ? `<definedNames>${defined.join("")}</definedNames>` : "",
    metadata: dynamicArrays,
    level: 1,
  });
}

/** Small workbooks: tests with readings, an issue copy, and the vectors of workbooks saved by Excel. */
export function smallSeeds(): Seed[] {
  const sheets = { Down: testSheet({ direction: "depressurization" }), Up: testSheet({ direction: "pressurization" }) };
  const card = testSheet({ direction: "depressurization", function: "RESULTCARD" });
  const own: Seed[] = [
    { name: "two directions", bytes: testWorkbook(sheets) },
    { name: "a result card", bytes: testWorkbook({ Card: card }) },
    { name: "a house", bytes: house() },
    { name: "an issue copy", bytes: issued(house()).bytes },
  ];
  return [...own, ...excelBooks().map(([name, book]) => ({ name, bytes: workbookOf(book) }))];
}

/** The sample workbooks, with every part that a workbook of this add-in has. */
export function sampleSeeds(): Seed[] {
  const folder = new URL("../../sample-workbooks/", import.meta.url);
  const files = readdirSync(folder).filter((name) => name.endsWith(".xlsx"));
  return files.map((name) => ({ name, bytes: new Uint8Array(readFileSync(new URL(name, folder))) }));
}

/** Every different formula of the workbooks. */
export function formulasOf(seeds: readonly Seed[]): string[] {
  const all = new Set<string>();
  for (const { bytes } of seeds)
    for (const sheet of openWorkbook(bytes).book.sheets)
      for (const { formula } of sheet.cells.values()) if (formula) all.add(formula.text);
  return [...all];
}
