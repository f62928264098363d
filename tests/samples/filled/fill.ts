import { readFileSync } from "node:fs";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import { rememberAnswers } from "../../../src/workbook/formula/calls/remember-answers";
import {
  buildCellKey,
  type CellValue,
  ErrorValue,
  type Evaluation,
  evaluateBook,
  fillForm,
  openWorkbook,
  readInputs,
  verifyWorkbook,
} from "../../../src/workbook/index";
import { namedCell } from "../look-up";
import { placeOf } from "../package";

/** What a form is asked when it is filled in, it is asked again when it is opened and reviewed. */
const addIn = rememberAnswers(addInRegistry());

/** What a person types, by sheet and address: "Rooms!D7". */
export type Entries = Readonly<Record<string, CellValue>>;

/** A blank form as it is saved after a person has filled it in. */
interface Filled {
  readonly cell: (place: string) => CellValue;
  /** A line of the Summary, by the start of its label. */
  readonly summary: (label: string) => CellValue;
  /** Cells that show an error, of the sheets that are not left out. */
  readonly listErrors: (without?: readonly string[]) => string[];
  readonly listNotEvaluated: () => string[];
  /** What verify finds, other than notes. */
  readonly verify: () => string[];
}

/** Types into the cells of a blank form; a locked cell is no input, so that typing there is a mistake of the test. */
export function fillBlank(file: string, entries: Entries): Filled {
  const path = new URL(`../../../sample-workbooks/blank/${file}`, import.meta.url);
  const blank = openWorkbook(new Uint8Array(readFileSync(path)));
  const inputs = readInputs(blank);
  const typed = Object.entries(entries).map(([place, value]) => {
    const { sheet, row, column } = locate(place);
    if (inputs.isLocked(sheet, row, column)) throw new Error(`${place} is no cell to type into`);
    return { sheet, row, column, value };
  });
  const bytes = fillForm(blank, typed, addIn);
  const filled = openWorkbook(bytes);
  const { book } = filled;
  let evaluation: Evaluation | undefined;
  const evaluated = () => (evaluation ??= evaluateBook(book, { addIn }));
  const at = (sheet: number, row: number, column: number) =>
    book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;

  function locate(place: string) {
    const [name = "", address = ""] = place.split("!");
    const sheet = blank.book.sheets.findIndex((one) => one.name === name);
    if (sheet < 0) throw new Error(`no sheet ${name}`);
    return { sheet, ...placeOf(address) };
  }

  return {
    cell: (place) => {
      const { sheet, row, column } = locate(place);
      return at(sheet, row, column);
    },
    summary: (label) => {
      const area = namedCell(book, "Summary");
      for (let row = area.top; row <= area.bottom; row++) {
        const words = at(area.sheet, row, area.left);
        if (typeof words === "string" && words.startsWith(label)) return at(area.sheet, row, area.left + 1);
      }
      throw new Error(`the Summary has no line "${label}"`);
    },
    listErrors: (without = []) =>
      evaluated().cells.flatMap(({ sheet, address, outcome }) => {
        if (!outcome.evaluated || without.includes(book.sheets[sheet]?.name ?? "")) return [];
        return outcome.value instanceof ErrorValue ? [`${address}: ${outcome.value.code}`] : [];
      }),
    listNotEvaluated: () =>
      evaluated().cells.flatMap(({ address, outcome }) => (outcome.evaluated ? [] : [`${address}: ${outcome.reason}`])),
    verify: () =>
      verifyWorkbook(filled, addIn, new Date("2026-12-01T09:00:00Z"))
        .findings.filter(({ severity }) => severity !== "note")
        .map(({ kind, place, what }) => `${kind} ${place}: ${what}`),
  };
}

/** A block of cells row by row, from a first row on; `letters` are the columns. */
export function block(
  sheet: string,
  letters: readonly string[],
  first: number,
  rows: readonly (readonly CellValue[])[],
): Entries {
  return Object.fromEntries(
    rows.flatMap((row, down) =>
      row.map((value, across) => [`${sheet}!${letters[across] ?? ""}${first + down}`, value] as const),
    ),
  );
}
