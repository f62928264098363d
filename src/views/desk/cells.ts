import {
  type Area,
  type Book,
  buildCellKey,
  type Cell,
  type CellValue,
  ErrorValue,
  isErrorCode,
  toStoredForm,
} from "../../workbook/index";

/** A cell as a spreadsheet program shows it to an add-in. */
export interface ShownCell {
  readonly row: number;
  readonly column: number;
  readonly value: string | number | boolean;
  /** As typed, with "="; "" for a value. */
  readonly formula: string;
  readonly format: string;
  /** The cells that its result fills, where it spills. */
  readonly spill?: Area;
}

/** What a spreadsheet program shows of a workbook where it does not hand over the file. */
export interface CellsContent {
  readonly sheets: readonly {
    readonly name: string;
    readonly isVisible: boolean;
    readonly cells: readonly ShownCell[];
    readonly hiddenRows: readonly number[];
  }[];
  readonly names: readonly { readonly name: string; readonly sheet: string | undefined; readonly formula: string }[];
  readonly tables: Book["tables"];
}

/** The book of the cells that a program shows: every formula counts as dynamic. */
export function readBook({ sheets, names, tables }: CellsContent): Book {
  const place = (sheet: string | undefined): number => sheets.findIndex(({ name }) => name === sheet);
  return {
    sheets: sheets.map(({ name, isVisible, cells, hiddenRows }) => ({
      name,
      visibility: isVisible ? "visible" : "hidden",
      cells: new Map(cells.map((cell) => [buildCellKey(cell.row, cell.column), readCell(cell)])),
      hiddenRows: new Set(hiddenRows),
      hiddenColumns: new Set(),
      filteredRows: new Set(),
      mergedAreas: [],
    })),
    names: names.map(({ name, sheet, formula }) => ({
      name,
      text: toStoredForm(formula),
      ...(sheet === undefined ? {} : { sheet: place(sheet) }),
    })),
    tables,
    date1904: false,
  };
}

/** The sign @ for one cell of an area, but not in a text, in a sheet's name or before a table's column. */
const intersection = /"[^"]*"|'[^']*'|\[@|@/g;

function readCell({ row, column, value, formula, format, spill }: ShownCell): Cell {
  const cell = { row, column, value: readValue(value, formula), format };
  if (!formula.startsWith("=")) return cell;
  const isIntersected = [...formula.matchAll(intersection)].some(([found]) => found === "@");
  const text = toStoredForm(formula.replace(intersection, (found) => (found === "@" ? "" : found)));
  // What Excel shows with @ is kept in a file as an ordinary formula, which takes one cell of an area.
  if (isIntersected && !spill) return { ...cell, formula: { text } };
  const array = spill ?? { top: row, left: column, bottom: row, right: column };
  return { ...cell, formula: { text, array, dynamic: true } };
}

function readValue(value: ShownCell["value"], formula: string): CellValue {
  if (value === "" && formula === "") return null;
  return typeof value === "string" && isErrorCode(value) ? new ErrorValue(value) : value;
}
