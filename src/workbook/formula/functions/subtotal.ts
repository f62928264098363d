import { ErrorValue } from "../../model";
import type { Caller } from "../caller";
import { isError, toInteger } from "../coerce";
import { takesMany, type FunctionEntry, type FunctionTable } from "../function-entry";
import { refuse } from "../refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type SheetArea, type Value } from "../value";
import { aggregates } from "./aggregate";
import { statistics } from "./statistics";

/** The functions that SUBTOTAL and AGGREGATE number, in Excel's order; from the fourteenth they take one more value. */
const numbered: readonly (FunctionEntry | undefined)[] = [
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
  undefined,
  statistics["LARGE"],
  statistics["SMALL"],
  statistics["PERCENTILE.INC"],
  statistics["QUARTILE.INC"],
  statistics["PERCENTILE.EXC"],
  statistics["QUARTILE.EXC"],
];

interface LeaveOut {
  readonly hidden: boolean;
  readonly errors: boolean;
  readonly subtotals: boolean;
}

/** The values of ranges without the rows and cells to be left out. */
function kept(references: readonly Value[], leaveOut: LeaveOut, caller: Caller): Matrix | ErrorValue {
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

/** Sums, means and the like of what is visible. */
export const subtotals: FunctionTable = {
  SUBTOTAL: takesMany(["number"], ["values"], 2, ([number], references, caller) => {
    const code = toInteger(number);
    const entry = (code >= 1 && code <= 11) || (code >= 101 && code <= 111) ? numbered[(code % 100) - 1] : undefined;
    if (!entry) return errors.value;
    const values = kept(references, { hidden: code > 100, errors: false, subtotals: true }, caller);
    return isError(values) ? values : entry.compute(caller, [values]);
  }),
  AGGREGATE: takesMany(["number", "number"], ["values"], 3, ([number, options], given, caller) => {
    const code = toInteger(number);
    const option = toInteger(options);
    const entry = numbered[code - 1];
    if (option < 0 || option > 7 || code < 1 || code > 19) return errors.value;
    if (!entry) return refuse("AGGREGATE number 13, MODE");
    const leaveOut = { hidden: option % 2 === 1, errors: [2, 3, 6, 7].includes(option), subtotals: option < 4 };
    if (code < 14) {
      const values = kept(given, leaveOut, caller);
      return isError(values) ? values : entry.compute(caller, [values]);
    }
    const [list, further] = given;
    const value = further === undefined || further instanceof Omitted ? null : caller.scalar(further);
    if (typeof value !== "number") return isError(value) ? value : refuse(`AGGREGATE number ${code} without a number`);
    const values =
      list instanceof Matrix ? withoutErrors(list, leaveOut.errors) : kept([list ?? null], leaveOut, caller);
    return isError(values) ? values : entry.compute(caller, [values, value]);
  }),
};

/** A computed array has no rows that could be hidden. */
function withoutErrors(matrix: Matrix, leaveOut: boolean): Matrix {
  if (!leaveOut) return matrix;
  const values = matrix.values.filter((value) => !(value instanceof ErrorValue));
  return new Matrix(values.length, 1, values, false, undefined, matrix.fromCells);
}
