import type { ErrorValue } from "../../model";
import { broadcast } from "../values/broadcast";
import type { Caller } from "../calls/caller";
import { isError, toLogical } from "../values/coerce";
import { equal } from "../values/comparison";
import { takesMany, type FunctionTable, type Lazy } from "../calls/function-entry";
import { refuseDoubtfulLifting } from "../calls/lifting";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, type Scalar, type Value } from "../values/value";
import { branchScalars, branchValue } from "./logic";

/** IFS and SWITCH in pairs: the first that holds, evaluated one by one; an array of conditions is another matter. */
function firstHolding(
  pairs: readonly Lazy[],
  holds: (value: Scalar) => boolean | ErrorValue,
  otherwise: Value,
  ofArray: (rest: readonly Lazy[]) => Value,
): Value {
  for (let place = 0; place + 1 < pairs.length; place += 2) {
    const condition = pairs[place]?.scalars() ?? null;
    if (condition instanceof Matrix) return ofArray(pairs.slice(place));
    const held = holds(condition);
    if (isError(held)) return held;
    if (held) return branchValue(pairs[place + 1]);
  }
  return otherwise;
}

/** The same for each element of arrays; all conditions and values are then evaluated. The first input is what SWITCH compares. */
function firstOfEach(
  subject: Scalar | Matrix,
  pairs: readonly Lazy[],
  otherwise: Lazy | undefined,
  holds: (subject: Scalar, value: Scalar) => boolean | ErrorValue,
  caller: Caller,
): Value {
  const inputs = [subject, ...pairs.map(branchScalars), otherwise ? branchScalars(otherwise) : errors.notAvailable];
  refuseDoubtfulLifting(
    caller,
    inputs.filter((input) => input instanceof Matrix),
  );
  return broadcast(
    inputs,
    (values) => {
      for (let place = 1; place + 1 < inputs.length - 1; place += 2) {
        const held = holds(values[0] ?? null, values[place] ?? null);
        if (isError(held)) return held;
        if (held) return values[place + 1] ?? null;
      }
      return values.at(-1) ?? null;
    },
    true,
  );
}

const sameAsSubject = (subject: Scalar, other: Scalar): boolean | ErrorValue => {
  if (isError(subject)) return subject;
  return isError(other) ? refuse("an error value among those that SWITCH compares") : equal(subject, other);
};

/** Choices among pairs of a condition and a value. */
export const choices: FunctionTable = {
  IFS: takesMany([], ["lazy"], 2, (_, pairs, caller) => {
    if (pairs.length % 2 !== 0) return refuse("IFS has an odd number of arguments");
    return firstHolding(pairs, toLogical, errors.notAvailable, (rest) =>
      firstOfEach(null, rest, undefined, (__, value) => toLogical(value), caller),
    );
  }),
  SWITCH: takesMany(["lazy"], ["lazy"], 3, ([subject], rest, caller) => {
    const value = subject.scalars();
    const otherwise = rest.length % 2 === 1 ? rest.at(-1) : undefined;
    const pairs = otherwise ? rest.slice(0, -1) : rest;
    if (value instanceof Matrix) return firstOfEach(value, pairs, otherwise, sameAsSubject, caller);
    if (isError(value)) return value;
    const found = firstHolding(
      pairs,
      (other) => sameAsSubject(value, other),
      Omitted.value,
      (left) => firstOfEach(value, left, otherwise, sameAsSubject, caller),
    );
    return found === Omitted.value ? (otherwise ? branchValue(otherwise) : errors.notAvailable) : found;
  }),
};
