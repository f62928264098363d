import { ErrorValue } from "../../model";
import type { Caller } from "../calls/caller";
import { isError } from "../values/coerce";
import type { FunctionEntry } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, Matrix, Reference, type Scalar, type SheetArea, type Value } from "../values/value";
import { aggregates } from "./aggregate";
import { statistics } from "./statistics";

/** The functions that SUBTOTAL and AGGREGATE number, in Excel's order; from the fourteenth they take one more value. */
export const numbered: readonly (FunctionEntry | undefined)[] = [
  aggregates["AVERAGE"],
  aggregates["COUNT"],
  aggregates["COUNTA"],
  aggregates["MAX"],
  aggregates["MIN"],
  aggregates["PRODUCT"],
  statistics["STDEV.S"],
  statistics["STDEV.P"],
  aggregates["SUM"],
  statistics["VAR.S"],
  statistics["VAR.P"],
  statistics["MEDIAN"],
  statistics["MODE.SNGL"],
  statistics["LARGE"],
  statistics["SMALL"],
  statistics["PERCENTILE.INC"],
  statistics["QUARTILE.INC"],
  statistics["PERCENTILE.EXC"],
  statistics["QUARTILE.EXC"],
];

export interface LeaveOut {
  readonly hidden: boolean;
  readonly errors: boolean;
  readonly subtotals: boolean;
}

/** The values of ranges without the rows and cells to be left out. */
export function kept(references: readonly Value[], leaveOut: LeaveOut, caller: Caller): Matrix | ErrorValue {
  const values: Scalar[] = [];
  for (const reference of references) {
    if (isError(reference)) return reference;
    if (!(reference instanceof Reference)) return refuse(`${caller.name} of an array`);
    if (reference.acrossSheets) return errors.value;
    for (const area of reference.areas) {
      refuseFiltered(area, leaveOut, caller);
      const { hiddenRows, filteredRows } = caller.grid.book.sheets[area.sheet] ?? {
        hiddenRows: new Set(),
        filteredRows: new Set(),
      };
      caller.grid.visit(area, (value, row, column) => {
        // Rows that a filter hides are always left out; rows hidden by hand only where asked.
        if (filteredRows.has(row) || (leaveOut.hidden && hiddenRows.has(row))) return;
        if (leaveOut.errors && value instanceof ErrorValue) return;
        const nested = caller.grid.slotAt(area.sheet, row, column)?.parsed?.subtotal ?? "no";
        if (leaveOut.subtotals && nested === "within")
          refuse("a subtotal inside a larger formula, among the cells of another subtotal");
        if (leaveOut.subtotals && nested === "outermost") return;
        values.push(value);
      });
    }
  }
  return new Matrix(values.length, 1, values, false, undefined, true);
}

/** SUBTOTAL leaves out what a filter hides in any case; of AGGREGATE without its hidden-rows option that is not known. */
function refuseFiltered(area: SheetArea, leaveOut: LeaveOut, caller: Caller): void {
  if (caller.name !== "AGGREGATE" || leaveOut.hidden) return;
  for (const row of caller.grid.book.sheets[area.sheet]?.filteredRows ?? []) {
    if (row >= area.top && row <= area.bottom) refuse("AGGREGATE over rows that a filter hides");
  }
}
