import { ErrorValue } from "../model";
import { toNumber, toText } from "./values/coerce";
import { areEqual, findFirstError, order, haveSameDigits } from "./values/comparison";
import { refuse } from "./values/refusal";
import type { BinaryOperator } from "./parse/syntax";
import { errors, requireFinite, type Scalar } from "./values/value";
import { spendText } from "./work-limits";

const longestText = 32_767;

/** One binary operation on scalars, with Excel's coercions and error values. */
export function operate(operator: BinaryOperator, left: Scalar, right: Scalar): Scalar {
  switch (operator) {
    case "+":
    case "-":
    case "*":
    case "/":
    case "^":
      return calculate(operator, left, right);
    case "&":
      return joinAsText(left, right);
    case "=":
    case "<":
    case ">":
    case "<=":
    case ">=":
    case "<>":
      return compare(operator, left, right);
  }
}

function calculate(operator: "+" | "-" | "*" | "/" | "^", left: Scalar, right: Scalar): Scalar {
  if (typeof left === "number" && typeof right === "number") return computeArithmetic(operator, left, right);
  if (left instanceof ErrorValue) return left;
  const a = toNumber(left);
  const b = toNumber(right);
  if (a instanceof ErrorValue) {
    if (b instanceof ErrorValue && b.code !== a.code)
      refuse("two different errors meet and which one Excel shows is not certain");
    return a;
  }
  return b instanceof ErrorValue ? b : computeArithmetic(operator, a, b);
}

function computeArithmetic(operator: "+" | "-" | "*" | "/" | "^", a: number, b: number): number | ErrorValue {
  switch (operator) {
    case "+":
      return requireFinite(a + b);
    case "-":
      return requireFinite(a - b);
    case "*":
      return requireFinite(a * b);
    case "/":
      return b === 0 ? errors.division : requireFinite(a / b);
    case "^":
      return raiseToPower(a, b);
  }
}

/** a to the power b: 0^0 is #NUM!, 0 to a negative power #DIV/0!, a root of a negative number #NUM!. */
export function raiseToPower(a: number, b: number): number | ErrorValue {
  if (a === 0 && b === 0) return errors.number;
  if (a === 0 && b < 0) return errors.division;
  return requireFinite(Math.pow(a, b));
}

function joinAsText(left: Scalar, right: Scalar): Scalar {
  const a = toText(left);
  if (a instanceof ErrorValue) return a;
  const b = toText(right);
  if (b instanceof ErrorValue) return b;
  if (a.length + b.length > longestText) return errors.value;
  spendText(a.length + b.length);
  return a + b;
}

function compare(operator: "=" | "<" | ">" | "<=" | ">=" | "<>", left: Scalar, right: Scalar): Scalar {
  const error = findFirstError(left, right);
  if (error) return error;
  if (operator === "=") return areEqual(left, right);
  if (operator === "<>") return !areEqual(left, right);
  const difference = order(left, right);
  if (operator === "<") return difference < 0;
  if (operator === ">") return difference > 0;
  return operator === "<=" ? difference <= 0 : difference >= 0;
}

/** A sign or per cent on a scalar; a plus sign changes nothing, not even text. */
export function applySign(operator: "+" | "-" | "%", value: Scalar): Scalar {
  if (operator === "+") return value;
  const number = toNumber(value);
  if (number instanceof ErrorValue) return number;
  return requireFinite(operator === "-" ? -number : number / 100);
}

/**
 * The last step of a formula that ends in an unparenthesised + or −: Excel shows 0 where the result is only rounding error
 * (=0.5-0.4-0.1 is 0, =(0.5-0.4-0.1) is −2.8E-17; =33.665-33.95+0.285 stays −3.7E-15). Between what is known to be snapped and
 * what is known not to be, nothing is certain and the cell is refused.
 */
export function snapToZero(operator: "+" | "-", left: Scalar, right: Scalar, result: Scalar): Scalar {
  if (!isNearlyCancelled(left, right, result)) return result;
  const a = toNumber(left) as number;
  const b = toNumber(right) as number;
  const ratio = Math.abs(result as number) / Math.max(Math.abs(a), Math.abs(b));
  if (ratio < 2 ** -50 && haveSameDigits(a, operator === "-" ? b : -b)) return 0;
  return refuse("a difference so close to 0 that it is not certain whether Excel shows 0");
}

/** True where a sum or difference is not 0 but no larger than the last bits of what was added. */
export function isNearlyCancelled(left: Scalar, right: Scalar, result: Scalar): boolean {
  if (typeof result !== "number" || result === 0) return false;
  const a = toNumber(left);
  const b = toNumber(right);
  if (typeof a !== "number" || typeof b !== "number") return false;
  return Math.abs(result) <= 2 ** -47 * Math.max(Math.abs(a), Math.abs(b));
}
