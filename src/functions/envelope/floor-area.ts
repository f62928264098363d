import { floorArea as areaOfPlan, type Corner } from "../../core/index";
import { isBlank, numberIn, rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { invalid, missing } from "../cells/rule-codes";

/**
 * Rows without trailing blanks. A trailing 0, 0 is a blank row that a host sent as zeros, unless this host shows blanks as blanks. A single one that
 * could as well be the corner at the origin is refused: leaving it out would silently change the area.
 */
function trimmed(cells: readonly unknown[][]): unknown[][] {
  const isZero = (row: readonly unknown[]) => row.every((cell) => cell === 0);
  const isEmpty = (row: readonly unknown[]) => row.every(isBlank);
  const rows = cells.filter((row) => !isEmpty(row));
  if (rows.length < cells.length) return [...cells];
  const last = cells.findLastIndex((row) => !isZero(row));
  const kept = cells.slice(0, last + 1);
  if (cells.length - kept.length === 1 && !kept.some(isZero) && kept.length >= 3) {
    throw invalid("corners", "originUnclear", undefined, cells.length);
  }
  return kept;
}

/** Corners from two columns x, y. Rows blank in both are skipped. */
function cornersIn(argument: unknown): Corner[] {
  return trimmed(rowsOf(argument)).flatMap((cells, index) => {
    const row = index + 1;
    if (cells.length !== 2) {
      throw invalid("corners", "columns", { columns: "x and y", got: cells.length });
    }
    const x = numberIn(cells[0], "corners", row);
    const y = numberIn(cells[1], "corners", row);
    if (x === undefined && y === undefined) return [];
    if (x === undefined || y === undefined) {
      throw missing("corners", "without", x === undefined ? { part: "y", lacks: "x" } : { part: "x", lacks: "y" }, row);
    }
    return [{ x, y }];
  });
}

/**
 * Area of a plan from its corners, listed in order around it; corners in m give m². List a corner at the origin first,
 * since trailing rows of zeros count as blank. Walls that cross or touch are an error; compute a void as a separate
 * area and deduct it.
 * Equation: A = ½·|Σ (x_i·y_i+1 − x_i+1·y_i)|.
 * Source: Gauss's area formula (shoelace).
 * @customfunction FLOORAREA
 * @param corners Two columns, x and y, one row per corner, at least three. Blank rows are skipped; trailing 0, 0 means blank.
 * @returns The area.
 * @core envelope/floor-area.ts
 * @check authorities/plane-geometry.test.ts
 */
export function floorArea(corners: any[][]): number {
  return inCell(() => areaOfPlan(cornersIn(corners)));
}
