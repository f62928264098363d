import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import { buildCellKey, compareWithStored, evaluateBook, openWorkbook } from "../../../src/workbook/index";

/** The sample's result cards: whole tests written out in a text, as computed by another JavaScript engine. */
describe("a stored result card", () => {
  const { book } = openWorkbook(readFileSync("sample-workbooks/final-test.xlsx"));
  const evaluation = evaluateBook(book, { addIn: addInRegistry() });
  const card = evaluation.cells.find(
    ({ outcome }) => outcome.evaluated && typeof outcome.value === "string" && outcome.value.startsWith('{"test"'),
  )!;
  const compareWith = (change: (text: string) => string): string[] => {
    const cell = book.sheets[card.sheet]!.cells.get(buildCellKey(card.row, card.column))!;
    const sheets = book.sheets.map((sheet, index) =>
      index === card.sheet
        ? {
            ...sheet,
            cells: new Map(sheet.cells).set(buildCellKey(card.row, card.column), {
              ...cell,
              value: change(cell.value as string),
            }),
          }
        : sheet,
    );
    return compareWithStored({ ...book, sheets }, evaluation).map(({ address }) => address);
  };

  it("agrees if only last digits differ", () => {
    expect(compareWith((text) => text.replace(/(\d\.\d{13,14})\d\b/, "$17"))).toEqual([]);
  });

  it("differs if a figure differs, or a word", () => {
    expect(
      compareWith((text) =>
        text.replace(/(\d\.\d{3})\d/, (_, kept: string) => `${kept}${text.includes(`${kept}0`) ? 1 : 0}`),
      ),
    ).toEqual([card.address]);
    expect(compareWith((text) => text.replace("pressurization", "pressurizatiom"))).toEqual([card.address]);
  });
});
