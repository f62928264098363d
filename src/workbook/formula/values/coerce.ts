import { ErrorValue } from "../../model";
import { formatNumber, parseNumber } from "./number-text";
import { refuse } from "./refusal";
import { errors, type Scalar } from "./value";

/** A scalar as a number, the way operators and numeric arguments take it: blank is 0, TRUE is 1, numeric text its number. */
export function toNumber(value: Scalar): number | ErrorValue {
  if (typeof value === "number") return value;
  if (value === null) return 0;
  if (typeof value === "boolean") return value ? 1 : 0;
  if (typeof value === "string") return parseNumber(value) ?? errors.value;
  return value;
}

/** A scalar as text: blank is "", a number in General with 15 digits. */
export function toText(value: Scalar): string | ErrorValue {
  if (typeof value === "string") return value;
  if (value === null) return "";
  if (typeof value === "number") return formatNumber(value);
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return value;
}

/** A scalar as a truth value: any number but 0 is true, the texts "TRUE" and "FALSE" are read in any case. */
export function toLogical(value: Scalar): boolean | ErrorValue {
  if (typeof value === "boolean") return value;
  if (typeof value === "number") return value !== 0;
  if (value === null) return false;
  if (typeof value === "string") {
    const word = value.toUpperCase();
    if (word === "TRUE") return true;
    if (word === "FALSE") return false;
    return errors.value;
  }
  return value;
}

/** A number cut to an integer the way Excel cuts counts, positions and digits; refused where rounding error decides. */
export function toInteger(value: number): number {
  const cut = Math.trunc(value);
  if (cut !== value && Math.trunc(Number(value.toPrecision(15))) !== cut) {
    refuse("a whole number is expected and the value differs from one only by rounding error");
  }
  return cut === 0 ? 0 : cut;
}

export const isError = (value: unknown): value is ErrorValue => value instanceof ErrorValue;
