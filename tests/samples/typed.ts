import { addInRegistry } from "../../src/cli/shared/add-in";
import { checkNames } from "../../src/core/index";
import { evaluateBook, openWorkbook, type Book, type CellValue, type Evaluation } from "../../src/workbook/index";
import { cellAt, namedCell } from "./look-up";
import { stored } from "./workbook";

const { book } = openWorkbook(stored);
const addIn = addInRegistry();

/** A workbook and what its formulas give. */
interface Test {
  readonly book: Book;
  readonly evaluation: Evaluation;
}

const evaluations = new Map<string, Evaluation>();

/** The workbook with a few cells typed anew, as a person would; what was typed before is not evaluated again. */
export function typed(changes: Readonly<Record<string, CellValue>>): Test {
  const key = JSON.stringify(changes);
  let evaluation = evaluations.get(key);
  if (!evaluation) {
    const set = Object.entries(changes).map(([place, value]) => {
      const [sheet = "", address = ""] = place.split("!");
      return { sheet, ...addressToPlace(address), value };
    });
    evaluations.set(key, (evaluation = evaluateBook(book, { addIn, set })));
  }
  return { book, evaluation };
}

function addressToPlace(address: string): { row: number; column: number } {
  const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  return {
    row: Number(digits) - 1,
    column: [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1,
  };
}

/** A line of the Summary, by the start of its label. */
export function summary({ book, evaluation }: Test, label: string): CellValue {
  const area = namedCell(book, "Summary");
  for (let row = area.top; row <= area.bottom; row++) {
    const text = cellAt(book, evaluation, area.sheet, row, area.left);
    if (typeof text === "string" && text.startsWith(label))
      return cellAt(book, evaluation, area.sheet, row, area.left + 1);
  }
  throw new Error(`the Summary has no line "${label}"`);
}

/** The row, counted from 1, whose column B begins with a label, below another row. */
export function rowCalled({ book, evaluation }: Test, name: string, label: string, below = 0): number {
  const sheet = book.sheets.findIndex((one) => one.name === name);
  for (let row = below; row < below + 400; row++) {
    const text = cellAt(book, evaluation, sheet, row, 1);
    if (typeof text === "string" && text.startsWith(label)) return row + 1;
  }
  throw new Error(`no row "${label}" on ${name}`);
}

/** The large word on the cover. */
export function shownOnCover({ book, evaluation }: Test): CellValue {
  return cellAt(book, evaluation, 0, 13, 1);
}

/** What a condition on the sheet Results says: under the two directions, and its outcome. */
export function condition({ book, evaluation }: Test, label: string): readonly [CellValue, CellValue, CellValue] {
  const sheet = book.sheets.findIndex(({ name }) => name === "Results");
  for (let row = 0; row < 80; row++) {
    const words = cellAt(book, evaluation, sheet, row, 1);
    if (typeof words !== "string" || !words.startsWith(label)) continue;
    const at = (column: number) => cellAt(book, evaluation, sheet, row, column);
    // A sentence above may begin with the same words; it has no outcome.
    if (at(5) !== null) return [at(3), at(4), at(5)];
  }
  throw new Error(`no condition "${label}"`);
}

/** What the standard's check of one run says: measured, limit, outcome. The runs in the order of the tabs, counted from 0. */
export function check(
  { book, evaluation }: Test,
  run: number,
  symbol: string,
): readonly [CellValue, CellValue, CellValue] {
  const sheet = book.sheets.findIndex(({ name }) => name === "Validity");
  // A table of one run, with a blank row below it.
  const first = 6 + run * (checkNames.length + 1);
  for (let row = first; row < first + checkNames.length; row++) {
    if (cellAt(book, evaluation, sheet, row, 3) !== symbol) continue;
    const at = (column: number) => cellAt(book, evaluation, sheet, row, column);
    return [at(4), at(5), at(7)];
  }
  throw new Error(`no check "${symbol}"`);
}

/** The lines beside the large word on the cover. */
export function panelOnCover({ book, evaluation }: Test): string {
  const lines = [13, 16, 17, 19].map((row) => cellAt(book, evaluation, 0, row, 3));
  return lines.map((line) => (typeof line === "string" ? line : "")).join(" ");
}

/** A cell by its sheet and address, "Rooms!E28". */
export function cell({ book, evaluation }: Test, place: string): CellValue {
  const [sheet = "", address = ""] = place.split("!");
  const { row, column } = addressToPlace(address);
  return cellAt(
    book,
    evaluation,
    book.sheets.findIndex(({ name }) => name === sheet),
    row,
    column,
  );
}

/** What the criterion limits, of the two runs of a direction. */
export function limitedRuns(test: Test, direction: "depressurization" | "pressurization"): readonly [number, number] {
  const row = rowCalled(test, "Results", "Limited: ");
  const [one, other] = direction === "depressurization" ? ["D", "E"] : ["F", "G"];
  return [Number(cell(test, `Results!${one}${row}`)), Number(cell(test, `Results!${other}${row}`))];
}

/** One direction alone is accepted. */
export const acceptOne = { "Criteria!J9": "accept" };

/** Every reading and baseline of a run taken away. */
export function without(sheet: string): Record<string, CellValue> {
  return { ...filled(sheet, "CDEFU", [24, 35]), ...filled(sheet, "DEFGHIJKLM", [16, 17]) };
}

/** The same value, or none, for many cells: letters and rows of a sheet. */
export function filled(
  sheet: string,
  letters: string,
  [first, last]: readonly [number, number],
  value: CellValue = null,
): Record<string, CellValue> {
  const rows = Array.from({ length: last - first + 1 }, (_, index) => first + index);
  return Object.fromEntries([...letters].flatMap((letter) => rows.map((row) => [`${sheet}!${letter}${row}`, value])));
}
