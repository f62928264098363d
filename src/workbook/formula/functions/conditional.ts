import { buildCellKey, ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { orderOfTexts, haveSameDigits, isSameText } from "../values/comparison";
import { isDoubtfulNumber, mayBeNumber, parseNumber } from "../values/number-text";
import { refuse } from "../values/refusal";
import { errors, requireFinite, Reference, type Scalar, type Value } from "../values/value";
import { type SheetArea, sizeOf } from "../../book/area";
import { sum } from "./aggregate";
import { hasWildcards, refuseIdleTilde, resolveEscapes, createWildcardTest } from "./wildcards";

/** A test of one cell's value by the rules of COUNTIF and its like. */
export interface Criterion {
  (value: Scalar): boolean;
  /** The number or text that a value must equal, where it is one. */
  readonly wanted?: number | string;
}

const metByRounding = "a criterion met or not by rounding error";

type Comparison = "=" | "<>" | "<" | ">" | "<=" | ">=";

/** The test that a criterion means: a value to equal, or text such as ">=5", "<>*brown", "=#N/A". */
export function parseCriterion(given: Scalar): Criterion {
  // A blank cell as criterion looks for 0.
  if (given === null) return compareWithOperand("=", 0);
  if (typeof given !== "string")
    return given instanceof ErrorValue ? matchError(given.code) : compareWithOperand("=", given);
  const match = /^(<>|<=|>=|=|<|>)?(.*)$/s.exec(given);
  const comparison = (match?.[1] ?? "=") as Comparison;
  const operand = match?.[2] ?? "";
  if (operand === "") return matchEmptyOperand(comparison, match?.[1] !== undefined);
  const upper = operand.toUpperCase();
  if (upper === "TRUE" || upper === "FALSE") return compareWithOperand(comparison, upper === "TRUE");
  if (/^#(N\/A|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|NULL!)$/.test(upper)) return compareWithError(comparison, upper);
  if (/^ | $/.test(operand) && mayBeNumber(operand)) refuse("a number with blanks around it as criterion");
  if (hasWildcards(operand)) return compareWithText(comparison, operand);
  if (isDoubtfulNumber(operand) && (comparison === "=" || comparison === "<>"))
    return compareWithCode(comparison === "=", operand);
  const number = parseNumber(operand);
  if (number !== undefined) return compareWithOperand(comparison, number);
  return compareWithText(comparison, operand);
}

function matchEmptyOperand(comparison: Comparison, isWritten: boolean): Criterion {
  // "=" finds cells that hold nothing, "" also those that hold an empty text, "<>" every cell that holds something.
  if (!isWritten) return (value) => value === null || value === "";
  if (comparison === "=") return (value) => value === null;
  if (comparison === "<>") return (value) => value !== null;
  return () => false;
}

const matchError =
  (code: string): Criterion =>
  (value) =>
    value instanceof ErrorValue && value.code === code;

function compareWithError(comparison: Comparison, code: string): Criterion {
  const same = matchError(code);
  if (comparison === "=") return same;
  if (comparison === "<>") return (value) => !same(value);
  return refuse("a criterion that orders error values");
}

function compareWithOperand(comparison: Comparison, operand: number | boolean): Criterion {
  const equals: Criterion = (value) => {
    if (typeof operand === "number" && typeof value === "string") return parseNumberLikeText(value) === operand;
    if (typeof value !== typeof operand) return false;
    if (
      typeof value === "number" &&
      typeof operand === "number" &&
      value !== operand &&
      haveSameDigits(value, operand)
    ) {
      refuse(metByRounding);
    }
    return value === operand;
  };
  if (comparison === "=") return typeof operand === "number" ? Object.assign(equals, { wanted: operand }) : equals;
  // "=23" also finds the text "23", "<>23" does not leave it out.
  if (comparison === "<>") return (value) => typeof value !== typeof operand || !equals(value);
  return (value) => {
    if (typeof value !== typeof operand || value === null) return false;
    const same = equals(value);
    if (same) return comparison === "<=" || comparison === ">=";
    return comparison.startsWith("<") ? value < operand : value > operand;
  };
}

/**
 * A code such as "1A" or "R.07", of which some locale may make a time or an amount of money. Equal texts meet it either way; what it
 * does not meet must differ from it under any reading.
 */
function compareWithCode(isEqual: boolean, operand: string): Criterion {
  refuseIdleTilde(operand);
  const isHour = mayBeHour(operand);
  const meets: Criterion = (value) => {
    if (typeof value === "number")
      return isHour && (value < 0 || value >= 1) ? false : refuse("a number beside a criterion that may be one");
    if (typeof value !== "string") return false;
    if (isSameText(value, operand)) return true;
    if (!mayBeNumber(value) || areDifferentCodes(value, operand)) return false;
    return refuse("a text and a criterion that some locale may read as the same number");
  };
  return isEqual ? meets : (value) => !meets(value);
}

/** "1A" and "11 pm", of which some locale may make a time. */
const mayBeHour = (text: string): boolean => /^\d+\s*[ap]m?$/i.test(text.trim());

/** True where the digits of two codes of one form are another number however they are read: as a whole, as decimals or as a year. */
function areDifferentCodes(one: string, other: string): boolean {
  // An hour is no amount of money and no date; a time with a colon may be the same hour.
  if (mayBeHour(one) !== mayBeHour(other)) return !/:/.test(one + other);
  const form = (text: string): string => text.trim().toLowerCase().replace(/\d+/g, "0");
  const runs = (text: string): readonly string[] => text.match(/\d+/g) ?? [];
  const [ofOne, ofOther] = [runs(one), runs(other)];
  if (ofOne.length !== ofOther.length || (form(one) !== form(other) && ofOne.length > 1)) return false;
  return ofOne.some((run, place) => {
    const counterpart = ofOther[place] ?? "";
    const isYear = [run, counterpart].some(({ length }) => length === 4) && run.length !== counterpart.length;
    return (
      Number(run) !== Number(counterpart) &&
      Number(`0.${run}`) !== Number(`0.${counterpart}`) &&
      !(isYear && Number(run) % 100 === Number(counterpart) % 100)
    );
  });
}

/** Text in a cell that looks like a number equals that number in criteria. */
function parseNumberLikeText(text: string): number | undefined {
  return /^\s*[+-]?(\d+(?:\.\d*)?|\.\d+)(e[+-]?\d+)?\s*$/i.test(text) ? Number(text) : undefined;
}

function compareWithText(comparison: Comparison, operand: string): Criterion {
  refuseIdleTilde(operand);
  const matches = hasWildcards(operand)
    ? createWildcardTest(operand)
    : (text: string) => isSameText(text, resolveEscapes(operand));
  const equals: Criterion = (value) => typeof value === "string" && matches(value);
  if (comparison === "=")
    return hasWildcards(operand) ? equals : Object.assign(equals, { wanted: resolveEscapes(operand) });
  if (comparison === "<>") return (value) => !(typeof value === "string" && matches(value));
  return (value) => {
    if (typeof value !== "string") return false;
    const difference = orderOfTexts(value, operand);
    if (difference === 0) return comparison === "<=" || comparison === ">=";
    return comparison.startsWith("<") ? difference < 0 : difference > 0;
  };
}

const haveSameSize = (a: SheetArea, b: SheetArea): boolean =>
  a.bottom - a.top === b.bottom - b.top && a.right - a.left === b.right - b.left;

/** How many cells of an area meet a criterion, the blank ones counted without visiting them. */
function countMatches(area: SheetArea, criterion: Criterion, caller: Caller): number {
  const counted = criterion.wanted === undefined ? undefined : caller.grid.countValues(area, parseNumberLikeText);
  if (counted && criterion.wanted !== undefined) {
    const found = counted.countOf(criterion.wanted);
    return found === "doubtful" ? refuse(metByRounding) : found;
  }
  let blanks = sizeOf(area);
  let count = 0;
  caller.grid.visit(area, (value) => {
    blanks -= 1;
    if (criterion(value)) count += 1;
  });
  return criterion(null) ? count + blanks : count;
}

/** Offsets of cells that meet every criterion, or undefined with "all blank rows too" when blanks would have to be counted. */
function findMatchingOffsets(
  areas: readonly SheetArea[],
  criteria: readonly Criterion[],
  caller: Caller,
): { keys: Set<number>; blanksMatch: boolean } {
  const seen = new Map<number, Scalar[]>();
  for (const [turn, area] of areas.entries()) {
    caller.grid.visit(area, (value, row, column) => {
      const key = buildCellKey(row - area.top, column - area.left);
      let values = seen.get(key);
      if (!values) seen.set(key, (values = new Array<Scalar>(areas.length).fill(null)));
      values[turn] = value;
    });
  }
  const keys = new Set<number>();
  for (const [key, values] of seen)
    if (criteria.every((criterion, turn) => criterion(values[turn] ?? null))) keys.add(key);
  return { keys, blanksMatch: criteria.every((criterion) => criterion(null)) };
}

interface Condition {
  readonly areas: readonly SheetArea[];
  readonly criteria: readonly Criterion[];
}

/** Pairs of range and criterion; an error if one is not a range or sizes differ. */
function readCondition(rest: readonly (Reference | Scalar)[], like: SheetArea | undefined): Condition | ErrorValue {
  const areas: SheetArea[] = [];
  const criteria: Criterion[] = [];
  if (rest.length % 2 !== 0) refuse("a criterion without its range");
  for (let place = 0; place < rest.length; place += 2) {
    const range = rest[place];
    const criterion = rest[place + 1];
    const area = range instanceof Reference ? range.area : undefined;
    if (!area || criterion instanceof Reference || criterion === undefined) return errors.value;
    if (!haveSameSize(area, like ?? areas[0] ?? area)) return errors.value;
    areas.push(area);
    criteria.push(parseCriterion(criterion));
  }
  return { areas, criteria };
}

/** The numbers of a range in the cells that meet the criteria; an error among them is the result. */
function collectChosenNumbers(
  target: SheetArea,
  { areas, criteria }: Condition,
  caller: Caller,
): number[] | ErrorValue {
  const { keys, blanksMatch } = findMatchingOffsets(areas, criteria, caller);
  const numbers: number[] = [];
  let problem: ErrorValue | undefined;
  const conditionKeys = new Set<number>();
  if (blanksMatch) {
    for (const area of areas)
      caller.grid.visit(
        area,
        (_, row, column) => void conditionKeys.add(buildCellKey(row - area.top, column - area.left)),
      );
  }
  caller.grid.visit(target, (value, row, column) => {
    const key = buildCellKey(row - target.top, column - target.left);
    if (!keys.has(key) && !(blanksMatch && !conditionKeys.has(key))) return false;
    if (typeof value === "number") numbers.push(value);
    if (value instanceof ErrorValue) problem = value;
    return problem !== undefined;
  });
  return problem ?? numbers;
}

const defineOnNumbers = (compute: (numbers: readonly number[]) => Scalar) =>
  takesMany(["reference"], ["reference", "any"], 3, ([target], rest, caller) => {
    if (!target.area) return errors.value;
    const condition = readCondition(rest, target.area);
    if (condition instanceof ErrorValue) return condition;
    const numbers = collectChosenNumbers(target.area, condition, caller);
    return numbers instanceof ErrorValue ? numbers : compute(numbers);
  });

/** SUMIF and AVERAGEIF: the range to add begins where it is given and takes the size of the range that is tested. */
const defineOnOneRange = (compute: (numbers: readonly number[]) => Scalar) =>
  takes(["reference", "any", "reference??"], ([range, criterion, target], caller): Value => {
    const { area } = range;
    const start = target ? target.area : area;
    if (!area || !start) return errors.value;
    const own = {
      ...start,
      bottom: Math.min(1_048_575, start.top + area.bottom - area.top),
      right: Math.min(16_383, start.left + area.right - area.left),
    };
    const numbers = collectChosenNumbers(own, { areas: [area], criteria: [parseCriterion(criterion)] }, caller);
    return numbers instanceof ErrorValue ? numbers : compute(numbers);
  });

const computeMean = (numbers: readonly number[]): Scalar =>
  numbers.length === 0 ? errors.division : requireFinite(sum(numbers) / numbers.length);
const total = (numbers: readonly number[]): Scalar => requireFinite(sum(numbers));

/** Counts, sums and extremes of the cells that meet criteria. */
export const conditionalAggregates: FunctionTable = {
  COUNTIF: takes(["reference", "any"], ([range, criterion], caller) =>
    range.area ? countMatches(range.area, parseCriterion(criterion), caller) : errors.value,
  ),
  COUNTIFS: takesMany([], ["reference", "any"], 2, (_, rest, caller) => {
    const condition = readCondition(rest, undefined);
    if (condition instanceof ErrorValue) return condition;
    const { areas, criteria } = condition;
    const first = areas[0] as SheetArea;
    const { keys, blanksMatch } = findMatchingOffsets(areas, criteria, caller);
    if (!blanksMatch) return keys.size;
    const filled = new Set<number>();
    for (const area of areas)
      caller.grid.visit(area, (_, row, column) => void filled.add(buildCellKey(row - area.top, column - area.left)));
    return keys.size + sizeOf(first) - filled.size;
  }),
  SUMIF: defineOnOneRange(total),
  AVERAGEIF: defineOnOneRange(computeMean),
  SUMIFS: defineOnNumbers(total),
  AVERAGEIFS: defineOnNumbers(computeMean),
  MINIFS: defineOnNumbers((numbers) => numbers.reduce((least, number) => Math.min(least, number), numbers[0] ?? 0)),
  MAXIFS: defineOnNumbers((numbers) => numbers.reduce((most, number) => Math.max(most, number), numbers[0] ?? 0)),
};
