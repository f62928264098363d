import type { ErrorCode } from "../../model";
import { isError, toInteger } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { firstValue } from "./gather";
import { errors, isSingleCell, Lambda, Matrix, Omitted, Reference, type Scalar } from "../values/value";
import { numberOfText } from "../values/text-number";

const is = (test: (value: Scalar) => boolean) => takes(["any"], ([value]) => test(value));

const errorNumbers: Readonly<Partial<Record<ErrorCode, number>>> = {
  "#NULL!": 1,
  "#DIV/0!": 2,
  "#VALUE!": 3,
  "#REF!": 4,
  "#NAME?": 5,
  "#NUM!": 6,
  "#N/A": 7,
};

const parity = (wanted: number) =>
  takes(["scalar"], ([value]) => {
    if (typeof value === "boolean") return errors.value;
    const number = typeof value === "string" ? numberOfText(value) : (value ?? 0);
    return number === undefined ? errors.value : Math.abs(toInteger(number) % 2) === wanted;
  });

/** What a value is. */
export const information: FunctionTable = {
  ISNUMBER: is((value) => typeof value === "number"),
  ISTEXT: is((value) => typeof value === "string"),
  ISNONTEXT: is((value) => typeof value !== "string"),
  ISLOGICAL: is((value) => typeof value === "boolean"),
  ISBLANK: is((value) => value === null),
  ISERROR: is((value) => isError(value)),
  ISERR: is((value) => isError(value) && value.code !== "#N/A"),
  ISNA: is((value) => isError(value) && value.code === "#N/A"),
  ISREF: takes(["values"], ([value]) => value instanceof Reference),
  ISODD: parity(1),
  ISEVEN: parity(0),
  NA: takes([], () => errors.notAvailable),
  "ERROR.TYPE": takes(["any"], ([value]) =>
    isError(value) ? (errorNumbers[value.code] ?? refuse("the number of a newer error")) : errors.notAvailable,
  ),
  N: takes(["values"], ([value], caller) => {
    const first = firstValue(value, caller);
    if (first instanceof Omitted || first instanceof Lambda) return errors.value;
    if (typeof first === "number" || isError(first)) return first;
    return first === true ? 1 : 0;
  }),
  TYPE: takes(["values"], ([value], caller) => {
    if (value instanceof Matrix) return 64;
    if (value instanceof Lambda) return 128;
    if (value instanceof Reference && (!value.area || !isSingleCell(value.area))) return refuse("TYPE of a range");
    const scalar = value instanceof Omitted ? null : caller.scalar(value);
    if (isError(scalar)) return 16;
    return typeof scalar === "string" ? 2 : typeof scalar === "boolean" ? 4 : 1;
  }),
  SHEETS: takes([], (_, caller) => caller.grid.book.sheets.length),
  SHEET: takes(["reference??"], ([reference], caller) => {
    const sheet = reference ? reference.area?.sheet : caller.place.sheet;
    return sheet === undefined ? refuse("SHEET of several ranges") : sheet + 1;
  }),
  AREAS: takes(["reference"], ([reference]) =>
    reference.acrossSheets ? refuse("AREAS across sheets") : reference.areas.length,
  ),
  ISFORMULA: takes(["reference"], ([reference], caller) => {
    const { area } = reference;
    if (!area || !isSingleCell(area)) return refuse("ISFORMULA of a range");
    caller.grid.refuseLarge(area);
    const slot = caller.grid.slotAt(area.sheet, area.top, area.left);
    if (slot?.owner?.formula?.dynamic) return refuse("ISFORMULA of a cell that a dynamic array fills");
    // Every cell of an array in braces holds its formula.
    return slot !== undefined && !slot.isEmptied;
  }),
};
