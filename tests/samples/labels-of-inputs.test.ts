import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../src/cli/shared/add-in";
import {
  evaluateBook,
  formatFullAddress,
  openWorkbook,
  readInputs,
  readLabels,
  type Sheet,
} from "../../src/workbook/index";
import { slow } from "../time-outs";

const addIn = addInRegistry();
const files = ["", "blank/"].flatMap((folder) =>
  readdirSync(new URL(`../../sample-workbooks/${folder}`, import.meta.url))
    .filter((name) => name.endsWith(".xlsx"))
    .map((name) => folder + name),
);

/** Lists of words side by side look like the rows of a table. */
const besideAList = new Set([26, 27, 28].map((row) => `'House and instruments'!G${row}`));

/** The cells of a form that are for typing into, with what they hold and the words that the form has for them. */
function readForm(file: string) {
  const opened = openWorkbook(readFileSync(new URL(`../../sample-workbooks/${file}`, import.meta.url)));
  const { book } = opened;
  const { isInput } = readInputs(opened);
  const labels = readLabels(book, evaluateBook(book, { addIn }), isInput);
  const inputs = book.sheets.flatMap(({ name, cells }, sheet) =>
    [...cells.values()]
      .filter(({ formula, row, column }) => !formula && isInput(sheet, row, column))
      .map(({ row, column, value }) => ({
        ...{ sheet, row, column, value },
        address: formatFullAddress(name, row, column),
        label: labels.describeAt(sheet, row, column).text,
      })),
  );
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
});
