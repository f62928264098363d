import { MethodError } from "../../core/index";
import { numberIn, onlyCell } from "./cells";

/**
 * A single number that cannot be 0, so that a 0 is a blank cell; undefined where it is blank. Errors: more than one cell, of which all but one would be
 * ignored without a word.
 */
export function oneOptionalNumber(argument: unknown, name: string): number | undefined {
  return numberIn(onlyCell(argument, name), name) || undefined;
}

/** The same, where a blank is missing. */
export function oneNumber(argument: unknown, name: string): number {
  const value = oneOptionalNumber(argument, name);
  if (value === undefined) throw new MethodError("missing", name, "not given yet");
  return value;
}
