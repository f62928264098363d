import { sentence } from "../../file/problem";
import { type ErrorCode, ErrorValue } from "../../model";
import { type FunctionTable, takes } from "../calls/function-entry";
import type { Slot } from "../grid/slot";
import { formatColumn } from "../../book/address";
import { toTypedForm } from "../parse/formula-text";
import { type AreaNode, listChildren, type Node } from "../parse/syntax";
import { isError, toInteger } from "../values/coerce";
import { parseNumber } from "../values/number-text";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar } from "../values/value";
import { isSingleCell } from "../../book/area";
import { readFirstValue } from "./gather";

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

const defineParity = (wanted: number) =>
  takes(["scalar"], ([value]) => {
    if (typeof value === "boolean") return errors.value;
    const number = typeof value === "string" ? parseNumber(value) : (value ?? 0);
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
  ISODD: defineParity(1),
  ISEVEN: defineParity(0),
  NA: takes([], () => errors.notAvailable),
  "ERROR.TYPE": takes(["any"], ([value]) =>
    isError(value) ? (errorNumbers[value.code] ?? refuse("the number of a newer error")) : errors.notAvailable,
  ),
  N: takes(["values"], ([value], caller) => {
    const first = readFirstValue(value, caller);
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
  SHEET: takes(["values??"], ([given], caller) => {
    if (given === undefined) return caller.place.sheet + 1;
    if (isError(given)) return given;
    if (given instanceof Reference) return given.area ? given.area.sheet + 1 : refuse("SHEET of several ranges");
    if (given instanceof Matrix) return refuse("SHEET of an array");
    const { sheets } = caller.grid.book;
    const place =
      typeof given === "string" ? sheets.findIndex(({ name }) => name.toLowerCase() === given.toLowerCase()) : -1;
    return place < 0 ? errors.notAvailable : place + 1;
  }),
  AREAS: takes(["reference"], ([reference]) =>
    reference.acrossSheets ? refuse("AREAS across sheets") : reference.areas.length,
  ),
  ISFORMULA: takes(["reference"], ([reference], caller) => {
    const { area } = reference;
    if (!area || !isSingleCell(area)) return refuse("ISFORMULA of a range");
    caller.grid.refuseLarge(area);
    const slot = caller.grid.findSlot(area.sheet, area.top, area.left);
    if (slot?.owner?.formula?.dynamic) return refuse("ISFORMULA of a cell that a dynamic array fills");
    // Every cell of an array in braces holds its formula.
    return slot !== undefined && !slot.isEmptied;
  }),
};

/** CELL's information on a cell, as far as it depends only on the workbook. */
export const cellFunction: FunctionTable = {
  CELL: takes(["scalar", "reference?"], ([kind, reference], caller) => {
    if (typeof kind !== "string") return errors.value;
    const area = reference?.area;
    if (!reference || !area) return refuse("CELL without one reference depends on the selected cell");
    const sheet = area.sheet === caller.place.sheet ? "" : undefined;
    switch (kind.toLowerCase()) {
      case "row":
        return area.top + 1;
      case "col":
        return area.left + 1;
      case "address":
        return sheet === "" ? `$${formatColumn(area.left)}$${area.top + 1}` : refuse("CELL address of another sheet");
      case "contents":
        return caller.grid.readValue(area.sheet, area.top, area.left);
      case "type": {
        const value = caller.grid.readValue(area.sheet, area.top, area.left);
        return value === null ? "b" : typeof value === "string" ? "l" : "v";
      }
      case "filename":
        return refuse('CELL("filename") depends on where the file lies');
      default:
        return refuse(sentence`CELL with "${kind}"`, "CELL with another kind of information");
    }
  }),
};

/** `=A1.n50`, which a file stores as `_FV(A1,"n50")`: a property of the card in a cell. */
export const cardProperty: FunctionTable = {
  _FV: takes(["reference", "text"], ([reference, name], caller) => {
    const { area } = reference;
    if (!area || !isSingleCell(area)) return refuse("the properties of several cells at once");
    const value = caller.scalar(reference);
    const slot = caller.grid.findSlot(area.sheet, area.top, area.left);
    // Excel stores a linked data type, such as a share or a country, as a #VALUE! that no formula gives.
    if (isError(value)) return slot ? value : refuse("a property of a linked data type");
    const card = slot?.card;
    if (!card) return refuse("a property of a cell that holds no card of the add-in");
    return card.get(name.toLowerCase()) ?? new ErrorValue("#FIELD!", sentence`the card has no property ${name}`);
  }),
};

/** Functions that take ranges as they are; before a range anywhere else newer versions of Excel write an @. */
const takeRanges = new Set(
  (
    "SUM SUMSQ PRODUCT AVERAGE AVERAGEA MIN MAX MINA MAXA COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS SUMIF SUMIFS AVERAGEIF AVERAGEIFS " +
    "MINIFS MAXIFS SUMPRODUCT STDEV STDEV.S STDEV.P VAR VAR.S VAR.P MEDIAN MODE MODE.SNGL GEOMEAN HARMEAN DEVSQ AVEDEV SKEW KURT " +
    "SLOPE INTERCEPT RSQ CORREL PEARSON STEYX FORECAST FORECAST.LINEAR LINEST LOGEST TREND GROWTH INDEX MATCH VLOOKUP HLOOKUP LOOKUP " +
    "XLOOKUP XMATCH OFFSET ROWS COLUMNS SUBTOTAL AGGREGATE LARGE SMALL RANK RANK.EQ RANK.AVG PERCENTILE PERCENTILE.INC QUARTILE " +
    "QUARTILE.INC TEXTJOIN CONCAT AND OR XOR"
  ).split(" "),
);

const isOneCell = ({ top, left, bottom, right }: AreaNode): boolean =>
  top.index === bottom.index && top.fixed === bottom.fixed && left.index === right.index && left.fixed === right.fixed;

/** True where newer versions of Excel may show the formula of an ordinary cell with an @ that the file does not hold. */
function mayShowAt(root: Node): boolean {
  const open: { readonly node: Node; readonly underRangeTaker: boolean }[] = [{ node: root, underRangeTaker: false }];
  for (let next = open.pop(); next; next = open.pop()) {
    const { node, underRangeTaker } = next;
    if (node.type === "single" || node.type === "spill" || node.type === "apply") return true;
    const isRange = node.type === "name" || node.type === "table" || node.type === "join";
    if (!underRangeTaker && (isRange || (node.type === "area" && !isOneCell(node)))) return true;
    if (isRange) continue;
    const takes = node.type === "call" && takeRanges.has(node.name);
    for (const child of listChildren(node)) if (child) open.push({ node: child, underRangeTaker: takes });
  }
  return false;
}

function showFormulaOf({ formula, parsed }: Slot): string {
  if (!formula || !parsed) return "";
  const typed = toTypedForm(formula.text);
  if (/\bSINGLE\(/i.test(typed)) return refuse("FORMULATEXT of a formula that Excel may show with an @");
  if (formula.dynamic) return typed;
  if (formula.array) return `{${typed}}`;
  return mayShowAt(parsed.root) ? refuse("FORMULATEXT of a formula that Excel may show with an @") : typed;
}

/** Formulas as texts. */
export const formulaText: FunctionTable = {
  FORMULATEXT: takes(["reference"], ([reference], caller) => {
    const { area } = reference;
    if (!area || !isSingleCell(area)) return refuse("FORMULATEXT of a range");
    caller.grid.refuseLarge(area);
    const slot = caller.grid.findSlot(area.sheet, area.top, area.left);
    if (slot?.owner) return refuse("FORMULATEXT of a cell that an array fills");
    return slot?.formula ? showFormulaOf(slot) : errors.notAvailable;
  }),
};
