import { ErrorValue } from "../../model";
import { implicitCell, joinReferences, type Place } from "./references";
import { errors, Matrix, Reference, type Scalar, type Value } from "../values/value";

/** True for a cell found by implicit intersection, false for the error instead. */
export const isArea = (value: ReturnType<typeof implicitCell>): value is Exclude<typeof value, Scalar> =>
  typeof value === "object" && value !== null && "sheet" in value;

/** @ and SINGLE: the one cell meant of a reference, the first value of an array. */
export function firstOf(value: Value, place: Place): Value {
  if (value instanceof Matrix) return value.at(0, 0);
  if (!(value instanceof Reference)) return value;
  const cell = implicitCell(value, place);
  return isArea(cell) ? new Reference([cell]) : cell;
}

/** A range, union or intersection of two values; errors go through, what is no reference is #VALUE!. */
export function joined(operator: ":" | "," | " ", left: Value, right: Value): Value {
  if (left instanceof ErrorValue) return left;
  if (right instanceof ErrorValue) return right;
  return left instanceof Reference && right instanceof Reference ? joinReferences(operator, left, right) : errors.value;
}
