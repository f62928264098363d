import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../src/cli/shared/add-in";
import {
  buildCellKey,
  evaluateBook,
  formatFullAddress,
  openWorkbook,
  parsePlace,
  readInputs,
  readLabels,
  type Sheet,
} from "../../src/workbook/index";
import { cellsOf, partsOf, sheetParts } from "./parts";
import { slow } from "../time-outs";

const addIn = addInRegistry();
const files = ["", "blank/"].flatMap((folder) =>
  readdirSync(new URL(`../../sample-workbooks/${folder}`, import.meta.url))
    .filter((name) => name.endsWith(".xlsx"))
    .map((name) => folder + name),
);

/** Lists of words side by side look like the rows of a table. */
const besideAList = new Set([26, 27, 28, 29, 30, 31, 32, 33].map((row) => `'House and instruments'!G${row}`));

/** Amounts of the variants: the heading is the name that a variant is given on another sheet. */
const amounts = /^Components![F-M](?:1[2-9]|2\d)$/;

/** The cells of a form that are for typing into, blank ones included, with the words that the form has for them. */
function readForm(file: string) {
  const bytes = readFileSync(new URL(`../../sample-workbooks/${file}`, import.meta.url));
  const opened = openWorkbook(bytes);
  const { book } = opened;
  const { isInput } = readInputs(opened);
  const labels = readLabels(book, evaluateBook(book, { addIn }), isInput);
  const inputs = sheetParts(partsOf(bytes)).flatMap(({ xml }, sheet) => {
    const { name, cells, mergedAreas } = book.sheets[sheet]!;
    const places = cellsOf(xml).flatMap(({ address }) => parsePlace(address) ?? []);
    return places.flatMap(({ row, column }) => {
      const cell = cells.get(buildCellKey(row, column));
      const isHidden = mergedAreas.some(
        ({ top, left, bottom, right }) =>
          row >= top && row <= bottom && column >= left && column <= right && (row > top || column > left),
      );
      if (isHidden || cell?.formula || !isInput(sheet, row, column)) return [];
      const label = labels.describeAt(sheet, row, column).text;
      return [{ ...{ sheet, row, column, label }, address: formatFullAddress(name, row, column) }];
    });
  });
  return { book, inputs, isInput };
}

/** What each row of a sheet starts with, if that is a text: in a table, the name of a room or of a house. */
function startsOfRows({ cells }: Sheet): Map<number, string> {
  const fromTheRight = [...cells.values()].sort((one, other) => other.column - one.column);
  return new Map(fromTheRight.flatMap(({ row, value }) => (typeof value === "string" ? [[row, value]] : [])));
}

/** The texts typed into a sheet that occur in none of its printed words. */
function listEntries({ cells }: Sheet, isTyped: (row: number, column: number) => boolean): string[] {
  const listTexts = (typed: boolean) => [
    ...new Set(
      [...cells.values()].flatMap(({ row, column, value }) =>
        typeof value === "string" && value !== "" && isTyped(row, column) === typed ? [value] : [],
      ),
    ),
  ];
  const printed = listTexts(false);
  return listTexts(true).filter((entry) => !printed.some((words) => words.includes(entry)));
}

describe.each(files)("the labels of the inputs of %s", { timeout: slow }, (file) => {
  const { book, inputs, isInput } = readForm(file);

  it("hold no other entry but the name with which a table's row starts", () => {
    const entries = book.sheets.map((one, sheet) => listEntries(one, (row, column) => isInput(sheet, row, column)));
    const starts = book.sheets.map(startsOfRows);
    const wrong = inputs.filter(({ sheet, row, label, address }) => {
      const words = `, ${label.replace(starts[sheet]?.get(row) ?? "", "")}, `;
      return !besideAList.has(address) && entries[sheet]?.some((entry) => words.includes(`, ${entry}, `));
    });
    expect(wrong.map(({ address, label }) => `${address}: ${label}`)).toEqual([]);
  });

  it("are missing nowhere", () => {
    const without = inputs.filter(({ label, address }) => label === "" && !amounts.test(address));
    expect(without.map(({ address }) => address)).toEqual([]);
  });
});
