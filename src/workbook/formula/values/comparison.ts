import { ErrorValue } from "../../model";
import { refuse } from "./refusal";
import type { Scalar } from "./value";
import { spendReading } from "../work-limits";

/** True where two numbers show the same 15 significant digits, which is what Excel's comparison operators see. */
export function haveSameDigits(a: number, b: number): boolean {
  if (a === b) return true;
  if (Math.abs(a - b) > 1e-14 * Math.max(Math.abs(a), Math.abs(b))) return false;
  return a.toPrecision(15) === b.toPrecision(15);
}

const collator = new Intl.Collator("en", { sensitivity: "accent" });

/** Text equality regardless of case. */
export function isSameText(a: string, b: string): boolean {
  spendReading(Math.max(a.length, b.length));
  return a === b || a.toLowerCase() === b.toLowerCase();
}

/**
 * The order of two texts regardless of case. Where only digits, plain letters and spaces are met, the order is certain;
 * other signs are sorted by Excel by the locale's rules and are refused.
 */
export function orderOfTexts(a: string, b: string): number {
  if (isSameText(a, b)) return 0;
  const plain = /^[a-z0-9 ]*$/i;
  if (!plain.test(a) || !plain.test(b)) {
    // The first place where they differ decides; if the letters there are plain, the rest does not matter.
    let place = 0;
    while (place < a.length && place < b.length && a[place]?.toLowerCase() === b[place]?.toLowerCase()) place += 1;
    const one = a[place];
    const other = b[place];
    const before = a.slice(0, place);
    if (/['-]/.test(a + b) || !/^[\x20-\x7e]*$/.test(before)) refuse("an order of texts that depends on the locale");
    if (one !== undefined && other !== undefined && (!plain.test(one) || !plain.test(other))) {
      refuse("an order of texts that depends on the locale");
    }
  }
  return collator.compare(a, b);
}

const rank = (value: Scalar): number => (typeof value === "number" ? 0 : typeof value === "string" ? 1 : 2);

/** What a blank turns into beside another value in a comparison. */
function replaceBlank(other: Scalar): Scalar {
  if (typeof other === "string") return "";
  if (typeof other === "boolean") return false;
  return 0;
}

/** Excel's order of two values that are no errors: numbers < text < FALSE < TRUE; negative, zero or positive. */
export function order(left: Scalar, right: Scalar): number {
  const a = left === null ? replaceBlank(right) : left;
  const b = right === null ? replaceBlank(left) : right;
  if (typeof a === "number" && typeof b === "number") return haveSameDigits(a, b) ? 0 : a - b;
  if (typeof a === "string" && typeof b === "string") return orderOfTexts(a, b);
  if (typeof a === "boolean" && typeof b === "boolean") return Number(a) - Number(b);
  return rank(a) - rank(b);
}

/** Equality of two values that are no errors. */
export function areEqual(left: Scalar, right: Scalar): boolean {
  const a = left === null ? replaceBlank(right) : left;
  const b = right === null ? replaceBlank(left) : right;
  if (typeof a === "string" && typeof b === "string") return isSameText(a, b);
  return order(a, b) === 0;
}

/** The first error of two values, left first. */
export function findFirstError(left: Scalar, right: Scalar): ErrorValue | undefined {
  if (left instanceof ErrorValue) return left;
  return right instanceof ErrorValue ? right : undefined;
}
