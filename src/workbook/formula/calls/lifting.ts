import type { Caller } from "./function-entry";
import { refuse } from "../values/refusal";
import { Matrix, Reference, type Value } from "../values/value";
import { isSingleCell } from "../../book/area";

/** Excel calls these with one value at a time, in ordinary formulas even within arguments calculated as arrays. */
const onlyInArrayFormulas = new Set(["VLOOKUP", "HLOOKUP", "IF", "IFERROR", "IFNA", "CHOOSE", "IFS", "SWITCH"]);
/** Of these, arrays of arguments are known only in formulas that spill. */
const onlyInDynamicArrays = new Set(["INDEX", "XLOOKUP", "XMATCH", "ADDRESS"]);
/** In braces Excel takes only the first of the numbers where what is looked up is an array too. */
export const oneArrayInBraces = new Set(["VLOOKUP", "HLOOKUP"]);

/** INDEX({2,3;4,5},{1}) in braces is not INDEX({2,3;4,5},1). */
export function refuseSingleConstant(caller: Caller, value: () => Value): void {
  if (caller.kind !== "braces" || caller.name !== "INDEX") return;
  const given = value();
  if (given instanceof Matrix && given.constant && given.values.length === 1)
    refuse("INDEX with an array of one number");
}
/** With arrays they produce several references, of which only some functions see more than the first (see reference-arrays). */
const makersOfReferences = new Set(["OFFSET", "INDIRECT"]);
/** Of the former analysis add-in: they take a cell or an array but no range, EOMONTH(A1:A9,0) is not EOMONTH(+A1:A9,0). */
const withoutRanges = new Set([
  "EDATE",
  "EOMONTH",
  "ISODD",
  "ISEVEN",
  "QUOTIENT",
  "MROUND",
  "CONVERT",
  "ERF",
  "ERFC",
  "WEEKNUM",
  "NETWORKDAYS",
  "WORKDAY",
  "NETWORKDAYS.INTL",
  "WORKDAY.INTL",
  "YEARFRAC",
]);
/** Whether they process ranges cell by cell in an ordinary formula is not known. */
const doubtfulTables = new Set(["VLOOKUP", "HLOOKUP", "ROWS", "COLUMNS"]);

/** Functions found only in versions of Excel with dynamic arrays, which store every calculation with ranges as an array. */
const modern = new Set(
  "FILTER UNIQUE SORT SORTBY TAKE DROP CHOOSECOLS CHOOSEROWS VSTACK HSTACK EXPAND WRAPROWS WRAPCOLS XLOOKUP XMATCH".split(
    " ",
  ),
);

/** Functions whose result would hold the blanks of a whole column. */
const shapedByAll = new Set([...modern, "TRANSPOSE", "MAP", "BYROW", "BYCOL", "REDUCE", "SCAN"]);

/** Refuses a whole column where its blank cells, of which only the used ones are kept, would be part of the result. */
export function refuseWholeColumn(caller: Caller, value: Value): void {
  if (value instanceof Matrix && value.beyond && shapedByAll.has(caller.name))
    refuse(`a whole column inside ${caller.name}`);
}

/** Refuses a range of several cells where a function of the former analysis add-in takes one value. */
export function refuseRange(caller: Caller, value: () => Value): void {
  if (!withoutRanges.has(caller.name)) return;
  const given = value();
  if (given instanceof Reference && !(given.area && isSingleCell(given.area)))
    refuse(`${caller.name} of a range, which it does not take`);
}

/**
 * Refuses an argument of a newer function that is one thing calculated as an array and another in an ordinary formula: only
 * another program can have stored it, and how Excel would read it is not known.
 */
export function refuseDoubtfulArray(caller: Caller, asArray: Value, asIs: () => Value): void {
  if (caller.kind !== "ordinary" || !(modern.has(caller.name) || doubtfulTables.has(caller.name))) return;
  if (!(asArray instanceof Matrix) || asArray.constant || asArray.values.length === 1) return;
  const given = asIs();
  if (!(given instanceof Matrix) && !(given instanceof Reference)) {
    refuse(`a calculation with a range inside ${caller.name} in a cell that is no array formula`);
  }
}

/**
 * Refuses a call for each element of an array where the versions of Excel differ: SUMPRODUCT(IF(range>0, …)) is one thing in an
 * ordinary formula, another in braces. An array constant is an array everywhere, save for what returns references.
 */
export function refuseDoubtfulLifting(caller: Caller, arrays: readonly Matrix[]): void {
  const { name, kind } = caller;
  const constant = arrays.every((matrix) => matrix.constant);
  if (kind === "ordinary" && !constant && onlyInArrayFormulas.has(name)) {
    refuse(`${name} over a range in a cell that is no array formula`);
  }
  if (makersOfReferences.has(name)) refuse(`${name} with arrays of arguments`);
  if (kind !== "dynamic" && onlyInDynamicArrays.has(name)) refuse(`${name} with arrays of arguments`);
}
