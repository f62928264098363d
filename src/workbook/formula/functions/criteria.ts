import { ErrorValue } from "../../model";
import { orderOfTexts, sameDigits, sameText } from "../values/comparison";
import { refuse } from "../values/refusal";
import { mayBeNumber, numberOfText } from "../values/text-number";
import type { Scalar } from "../values/value";
import { hasWildcards, refuseIdleTilde, unescaped, wildcardTest } from "./wildcards";

/** A test of one cell's value by the rules of COUNTIF and its like. */
export interface Criterion {
  (value: Scalar): boolean;
  /** The number or text that a value must equal, where it is one. */
  readonly wanted?: number | string;
}

export const metByRounding = "a criterion met or not by rounding error";

type Comparison = "=" | "<>" | "<" | ">" | "<=" | ">=";

/** The test that a criterion means: a value to equal, or text such as ">=5", "<>*brown", "=#N/A". */
export function criterionOf(given: Scalar): Criterion {
  // A blank cell as criterion looks for 0.
  if (given === null) return comparing("=", 0);
  if (typeof given !== "string") return given instanceof ErrorValue ? sameError(given.code) : comparing("=", given);
  const match = /^(<>|<=|>=|=|<|>)?(.*)$/s.exec(given);
  const comparison = (match?.[1] ?? "=") as Comparison;
  const operand = match?.[2] ?? "";
  if (operand === "") return emptyOperand(comparison, match?.[1] !== undefined);
  const upper = operand.toUpperCase();
  if (upper === "TRUE" || upper === "FALSE") return comparing(comparison, upper === "TRUE");
  if (/^#(N\/A|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|NULL!)$/.test(upper)) return comparingError(comparison, upper);
  if (/^ | $/.test(operand) && mayBeNumber(operand)) refuse("a number with blanks around it as criterion");
  const number = numberOfText(operand);
  if (number !== undefined) return comparing(comparison, number);
  return comparingText(comparison, operand);
}

function emptyOperand(comparison: Comparison, isWritten: boolean): Criterion {
  // "=" finds cells that hold nothing, "" also those that hold an empty text, "<>" every cell that holds something.
  if (!isWritten) return (value) => value === null || value === "";
  if (comparison === "=") return (value) => value === null;
  if (comparison === "<>") return (value) => value !== null;
  return () => false;
}

const sameError =
  (code: string): Criterion =>
  (value) =>
    value instanceof ErrorValue && value.code === code;

function comparingError(comparison: Comparison, code: string): Criterion {
  const same = sameError(code);
  if (comparison === "=") return same;
  if (comparison === "<>") return (value) => !same(value);
  return refuse("a criterion that orders error values");
}

function comparing(comparison: Comparison, operand: number | boolean): Criterion {
  const equals: Criterion = (value) => {
    if (typeof operand === "number" && typeof value === "string") return numberLikeText(value) === operand;
    if (typeof value !== typeof operand) return false;
    if (typeof value === "number" && typeof operand === "number" && value !== operand && sameDigits(value, operand)) {
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

/** Text in a cell that looks like a number equals that number in criteria. */
export function numberLikeText(text: string): number | undefined {
  return /^\s*[+-]?(\d+(?:\.\d*)?|\.\d+)(e[+-]?\d+)?\s*$/i.test(text) ? Number(text) : undefined;
}

function comparingText(comparison: Comparison, operand: string): Criterion {
  refuseIdleTilde(operand);
  const matches = hasWildcards(operand) ? wildcardTest(operand) : (text: string) => sameText(text, unescaped(operand));
  const equals: Criterion = (value) => typeof value === "string" && matches(value);
  if (comparison === "=") return hasWildcards(operand) ? equals : Object.assign(equals, { wanted: unescaped(operand) });
  if (comparison === "<>") return (value) => !(typeof value === "string" && matches(value));
  return (value) => {
    if (typeof value !== "string") return false;
    const difference = orderOfTexts(value, operand);
    if (difference === 0) return comparison === "<=" || comparison === ">=";
    return comparison.startsWith("<") ? difference < 0 : difference > 0;
  };
}
