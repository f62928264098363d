import { ErrorValue, type Area, type Sheet } from "../../model";
import type { Grid } from "./grid";
import { refuse } from "../values/refusal";
import { largestFill, largestFillReason } from "./sheet-grid";
import type { Slot } from "./slot";
import { type Node, listDescendants } from "../parse/syntax";
import { errors, Matrix, type Scalar } from "../values/value";
import { columnsOf, isOverlapping, rowsOf, sizeOf } from "../../book/area";
import { keepCells, keepValues, spend } from "../work-limits";

/** A blank result shows as 0, in a cell as in every cell of a spill. */
export const showBlankAsZero = (value: Scalar): Scalar => value ?? 0;

/** Puts an array formula's result into the cells: a legacy array fills its stored range, a dynamic one spills. */
export function place(slot: Slot, result: Scalar | Matrix, grid: Grid): void {
  if (slot.formula?.dynamic) spill(slot, result, grid);
  else fill(slot, result, slot.formula?.array as Area, grid);
}

function spill(slot: Slot, result: Scalar | Matrix, grid: Grid): void {
  const matrix = result instanceof Matrix ? result : new Matrix(1, 1, [result]);
  if (matrix.beyond) refuse("a whole column as a result");
  if (matrix.values.length > largestFill) refuse(largestFillReason);
  keepCells(Math.max(0, matrix.values.length - slot.claimed));
  const { row, column } = slot;
  const area = { top: row, left: column, bottom: row + matrix.rows - 1, right: column + matrix.columns - 1 };
  spend(20 * matrix.values.length);
  const obstacle = findObstacle(area, slot, grid);
  if (obstacle !== undefined) {
    slot.value = new ErrorValue("#SPILL!", obstacle);
    return;
  }
  const values = matrix.values.map(showBlankAsZero);
  keepValues(values);
  slot.results = new Matrix(matrix.rows, matrix.columns, values);
  slot.filled = area;
  slot.value = showBlankAsZero(matrix.at(0, 0));
}

function findObstacle(area: Area, slot: Slot, grid: Grid): string | undefined {
  const sheet = grid.book.sheets[slot.sheet] as Sheet;
  if (sizeOf(area) === 1) return undefined;
  if (area.bottom > 1_048_575 || area.right > 16_383) return "the result does not fit on the sheet";
  for (let row = area.top; row <= area.bottom; row += 1) {
    for (let column = area.left; column <= area.right; column += 1) {
      if (grid.blocks(slot.sheet, row, column, slot)) {
        const other = grid.findSlot(slot.sheet, row, column);
        if (other?.owner) refuse(`its result would overlap that of ${grid.formatAddress(other.owner)}`);
        return `the cell ${grid.formatAddress({ sheet: slot.sheet, row, column })} is not empty`;
      }
    }
  }
  if (sheet.mergedAreas.some((merged) => isOverlapping(area, merged))) return "merged cells are in the way";
  const inTable = grid.book.tables.some((table) => table.sheet === slot.sheet && isOverlapping(area, table.area));
  return inTable ? "a table is in the way" : undefined;
}

const errorHandlers = new Set(
  "ISNUMBER ISTEXT ISNONTEXT ISLOGICAL ISBLANK ISERROR ISERR ISNA IFERROR IFNA ERROR.TYPE".split(" "),
);

const handlesErrors = (root: Node): boolean => {
  for (const node of listDescendants(root)) if (node.type === "call" && errorHandlers.has(node.name)) return true;
  return false;
};

/** A legacy array formula: single values, rows and columns repeat, what the result does not reach is #N/A. */
function fill(slot: Slot, result: Scalar | Matrix, area: Area, grid: Grid): void {
  const rows = rowsOf(area);
  const columns = columnsOf(area);
  if (rows * columns > largestFill) refuse(largestFillReason);
  const left = grid.sheets[slot.sheet]?.large.find(({ owner }) => owner === slot);
  if (left) refuse(left.reason);
  spend(5 * rows * columns);
  const source = result instanceof Matrix ? result : new Matrix(1, 1, [result]);
  const isShort = (source.rows > 1 && source.rows < rows) || (source.columns > 1 && source.columns < columns);
  if (isShort && slot.parsed && handlesErrors(slot.parsed.root))
    refuse("an array formula over more cells than its result has, where a function in it takes the #N/A beyond");
  const values: Scalar[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const inRow = source.rows === 1 ? 0 : row;
      const inColumn = source.columns === 1 ? 0 : column;
      values.push(
        inRow < source.rows && inColumn < source.columns
          ? showBlankAsZero(source.at(inRow, inColumn))
          : errors.notAvailable,
      );
    }
  }
  keepValues(values);
  slot.results = new Matrix(rows, columns, values);
  slot.filled = area;
  slot.value = values[0] ?? 0;
}
