import type { Area } from "../model";
import { limits } from "./limits";

/** The place of an A1 address without dollars ("AB12"), or undefined when it is not one. Written by hand: it runs once a cell. */
export function parsePlace(address: string): { row: number; column: number } | undefined {
  let column = 0;
  let row = 0;
  let at = 0;
  for (; at < address.length; at++) {
    const code = address.charCodeAt(at) & ~32;
    if (code < 65 || code > 90) break;
    column = column * 26 + code - 64;
  }
  const digitsAt = at;
  for (; at < address.length; at++) {
    const digit = address.charCodeAt(at) - 48;
    if (digit < 0 || digit > 9) return undefined;
    row = row * 10 + digit;
  }
  if (digitsAt === 0 || digitsAt === at) return undefined;
  return row >= 1 && row <= limits.rows && column <= limits.columns ? { row: row - 1, column: column - 1 } : undefined;
}

/** The area of "A1:C9" or "A1", corners in any order. */
export function parseArea(text: string): Area | undefined {
  const plain = text.replaceAll("$", "");
  const colon = plain.indexOf(":");
  const first = parsePlace(colon < 0 ? plain : plain.slice(0, colon));
  const last = colon < 0 ? first : parsePlace(plain.slice(colon + 1));
  if (!first || !last) return undefined;
  return {
    top: Math.min(first.row, last.row),
    left: Math.min(first.column, last.column),
    bottom: Math.max(first.row, last.row),
    right: Math.max(first.column, last.column),
  };
}
