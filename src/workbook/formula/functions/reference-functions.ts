import { type Caller, type FunctionTable, takes } from "../calls/function-entry";
import { formatColumn, quoteSheetName } from "../../book/address";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, Reference, type Value } from "../values/value";
import { columnsOf, lastColumn, lastRow, rowsOf, type SheetArea } from "../../book/area";
import { readMatrix, measureSize } from "./gather";

/** ROW and COLUMN: the number of a reference's rows or columns, of the formula's own cell without one. */
function definePositions(vertical: boolean) {
  return takes(["reference??"], ([reference], caller) => {
    if (!reference) return (vertical ? caller.place.row : caller.place.column) + 1;
    const { area } = reference;
    if (!area) return errors.value;
    const first = vertical ? area.top : area.left;
    const count = vertical ? rowsOf(area) : columnsOf(area);
    if (count === 1) return first + 1;
    if (!caller.inArray) refuse(`${caller.name} of several cells in an ordinary formula`);
    if (count > 100_000) refuse(`${caller.name} of a whole row or column`);
    const numbers = Array.from({ length: count }, (_, place) => first + place + 1);
    return vertical ? new Matrix(count, 1, numbers) : new Matrix(1, count, numbers);
  });
}

/** INDEX: a cell, row, column or all of an array; of a reference, a reference. */
function indexValue(given: Value, row: number, column: number | undefined, part: number, caller: Caller): Value {
  const whole = given instanceof Reference ? partOf(given, part) : part === 1 ? given : undefined;
  if (whole === undefined) return errors.reference;
  if (isError(whole)) return whole;
  const size = measureSize(whole) ?? { rows: 1, columns: 1 };
  // With one number, a single row is counted along its columns.
  const alongRow = column === undefined && size.rows === 1;
  const r = alongRow ? (size.columns > 1 ? 1 : toInteger(row)) : toInteger(row);
  const c = alongRow
    ? size.columns > 1
      ? toInteger(row)
      : 0
    : column === undefined
      ? size.columns === 1
        ? 1
        : 0
      : toInteger(column);
  if (r < 0 || c < 0) return errors.value;
  if (r > size.rows || c > size.columns) return errors.reference;
  // One number for a block means a whole row of an array; for a range, versions of Excel differ.
  if (column === undefined && size.rows > 1 && size.columns > 1 && whole instanceof Reference)
    refuse("INDEX of a block with one number");
  if (whole instanceof Reference) return new Reference([cutPiece(whole.area as SheetArea, r, c)]);
  const matrix = readMatrix(whole, caller);
  if (isError(matrix)) return matrix;
  const rows = r === 0 ? matrix.rows : 1;
  const columns = c === 0 ? matrix.columns : 1;
  if (rows === 1 && columns === 1) return matrix.at(Math.max(0, r - 1), Math.max(0, c - 1));
  const values = Array.from({ length: rows * columns }, (_, place) =>
    matrix.at(r === 0 ? Math.floor(place / columns) : r - 1, c === 0 ? place % columns : c - 1),
  );
  return new Matrix(rows, columns, values, matrix.constant);
}

function partOf(reference: Reference, part: number): Reference | undefined {
  const area = reference.acrossSheets ? undefined : reference.areas[part - 1];
  return area && new Reference([area]);
}

function cutPiece(area: SheetArea, row: number, column: number): SheetArea {
  const top = row === 0 ? area.top : area.top + row - 1;
  const left = column === 0 ? area.left : area.left + column - 1;
  return {
    sheet: area.sheet,
    top,
    left,
    bottom: row === 0 ? area.bottom : top,
    right: column === 0 ? area.right : left,
  };
}

function shiftArea(area: SheetArea, rows: number, columns: number, height: number, width: number): Value {
  if (height === 0 || width === 0) return errors.reference;
  const row = area.top + rows;
  const column = area.left + columns;
  const top = height > 0 ? row : row + height + 1;
  const left = width > 0 ? column : column + width + 1;
  const bottom = top + Math.abs(height) - 1;
  const right = left + Math.abs(width) - 1;
  if (top < 0 || left < 0 || bottom > lastRow || right > lastColumn) return errors.reference;
  return new Reference([{ sheet: area.sheet, top, left, bottom, right }]);
}

/** An address as text; kinds 1 to 4 fix both, the row, the column, neither. */
function formatAddress(row: number, column: number, kind: number, a1: boolean): string | undefined {
  const fixedRow = kind === 1 || kind === 2;
  const fixedColumn = kind === 1 || kind === 3;
  if (kind < 1 || kind > 4 || row < 1 || row > lastRow + 1 || column < 1 || column > lastColumn + 1) return undefined;
  if (a1) return `${fixedColumn ? "$" : ""}${formatColumn(column - 1)}${fixedRow ? "$" : ""}${row}`;
  return `R${fixedRow ? row : `[${row}]`}C${fixedColumn ? column : `[${column}]`}`;
}

/** References made, moved and measured. */
export const referenceFunctions: FunctionTable = {
  ROW: definePositions(true),
  COLUMN: definePositions(false),
  ROWS: takes(["table"], ([value]) => (isError(value) ? value : (measureSize(value)?.rows ?? errors.reference))),
  COLUMNS: takes(["table"], ([value]) => (isError(value) ? value : (measureSize(value)?.columns ?? errors.reference))),
  INDEX: takes(["table", "number", "number?", "number??"], ([given, row, column, part = 1], caller) =>
    given instanceof Omitted ? errors.value : indexValue(given, row, column, toInteger(part), caller),
  ),
  OFFSET: takes(
    ["reference", "number", "number", "number??", "number??"],
    ([reference, rows, columns, height, width]) => {
      const { area } = reference;
      if (!area) return errors.value;
      if ([height, width].some((size) => size !== undefined && !Number.isInteger(size)))
        return refuse("OFFSET with a height or width that is no whole number");
      const tall = height === undefined ? rowsOf(area) : toInteger(height);
      const wide = width === undefined ? columnsOf(area) : toInteger(width);
      return shiftArea(area, toInteger(rows), toInteger(columns), tall, wide);
    },
  ),
  INDIRECT: takes(["text", "logical?"], ([text, a1 = true], caller) => {
    // For a workbook that is not open Excel gives #REF!, and the file does not say whether it was open.
    if (/\[[^\]]*\.[^\]]*\]/.test(text)) return refuse("INDIRECT to another workbook");
    if (text !== text.trim()) return refuse("INDIRECT to an address with blanks around it");
    const found = caller.referenceOfText(text, a1 ? "A1" : "R1C1");
    if (found instanceof Reference) return found;
    // A text that names nothing is an invalid reference, not an unknown name.
    return isError(found) && found.code !== "#NAME?" ? found : errors.reference;
  }),
  ADDRESS: takes(
    ["number", "number", "number??", "logical??", "scalar??"],
    ([row, column, kind = 1, a1 = true, sheet]) => {
      const address = formatAddress(toInteger(row), toInteger(column), toInteger(kind), a1);
      if (address === undefined) return errors.value;
      if (sheet === undefined) return address;
      if (typeof sheet !== "string" || sheet === "") return refuse("ADDRESS with a sheet name that is no text");
      const [, book, own] = /^\[([^\]]*)\](.*)$/.exec(sheet) ?? [];
      if (book === undefined || own === undefined) return `${quoteSheetName(sheet)}!${address}`;
      const isPlain = [book, own].every((name) => quoteSheetName(name) === name && !name.includes("."));
      return isPlain ? `${sheet}!${address}` : refuse("ADDRESS in another workbook whose name may need quotes");
    },
  ),
};
