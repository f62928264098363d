import { ErrorValue } from "../../model";
import { type Caller, type FunctionEntry, type FunctionTable, takesMany } from "../calls/function-entry";
import { broadcast } from "../values/broadcast";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { type SheetArea } from "../../book/area";
import { aggregates } from "./aggregate";
import { readDirectScalar } from "./gather";
import { statistics } from "./statistics";

/** Sums, means and the like of what is visible. */
export const subtotals: FunctionTable = {
  SUBTOTAL: takesMany(["number"], ["values"], 2, ([number], references, caller) => {
    const code = toInteger(number);
    const entry = (code >= 1 && code <= 11) || (code >= 101 && code <= 111) ? numbered[(code % 100) - 1] : undefined;
    if (!entry) return errors.value;
    const values = keepFromRanges(references, { hidden: code > 100, errors: false, subtotals: true }, caller);
    return isError(values) ? values : entry.compute(caller, [values]);
  }),
  AGGREGATE: {
    ...takesMany(["number", "number", "table"], ["values"], 3, ([number, options, first], rest, caller) => {
      const code = toInteger(number);
      const option = toInteger(options);
      const entry = numbered[code - 1];
      if (option < 0 || option > 7 || !entry) return errors.value;
      const leaveOut = { hidden: option % 2 === 1, errors: [2, 3, 6, 7].includes(option), subtotals: option < 4 };
      if (code < 14) {
        const values = keepFromRanges([first, ...rest], leaveOut, caller);
        return isError(values) ? values : entry.compute(caller, [values]);
      }
      const [further, ...others] = rest;
      if (further === undefined || others.length > 0)
        return refuse(`AGGREGATE number ${code} without one further number`);
      const wanted = readFurtherNumbers(further, caller);
      if (isError(wanted)) return wanted;
      const values =
        first instanceof Reference ? keepFromRanges([first], leaveOut, caller) : keepFromArray(first, leaveOut, caller);
      if (isError(values)) return values;
      return broadcast([wanted], ([value = null]) => {
        if (typeof value !== "number")
          return isError(value) ? value : refuse(`AGGREGATE number ${code} without a number`);
        return entry.compute(caller, [values, value]) as Scalar;
      });
    }),
    judgesUnusedRows: true,
  },
};

/** The k of LARGE and its like: one, or several where an array gives them. */
function readFurtherNumbers(given: Value, caller: Caller): Scalar | Matrix {
  if (given instanceof Omitted) return null;
  if (!(given instanceof Matrix)) return caller.inArray ? caller.scalars(given) : caller.scalar(given);
  if (given.constant || caller.inArray || given.values.length === 1) return given;
  return refuse("several numbers calculated for AGGREGATE in a cell that is no array formula");
}

/** A computed array has no rows that could be hidden and no subtotals: only its errors are left out. */
function keepFromArray(given: Value, leaveOut: LeaveOut, caller: Caller): Matrix | ErrorValue {
  const whole = given instanceof Matrix ? given : new Matrix(1, 1, [readDirectScalar(given)]);
  const { beyond, fromCells } = whole;
  // The unused rows of a whole column, calculated, must count for nothing: only then need they not be there.
  const unused = beyond?.value;
  const counts = unused instanceof ErrorValue ? !leaveOut.errors : unused === null || typeof unused === "number";
  if (beyond && counts) refuse(`a whole column calculated inside ${caller.name}`);
  const values = leaveOut.errors ? whole.values.filter((value) => !(value instanceof ErrorValue)) : whole.values;
  return new Matrix(values.length, 1, values, false, undefined, fromCells);
}

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
  statistics["MODE.SNGL"],
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
function keepFromRanges(references: readonly Value[], leaveOut: LeaveOut, caller: Caller): Matrix | ErrorValue {
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
        const nested = caller.grid.findSlot(area.sheet, row, column)?.parsed?.subtotal ?? "no";
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
