import type { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, type Lazy, takes, takesMany } from "../calls/function-entry";
import { refuseDoubtfulLifting } from "../calls/lifting";
import { broadcast } from "../values/broadcast";
import { isError, toInteger, toLogical, toNumber } from "../values/coerce";
import { areEqual } from "../values/comparison";
import { NotEvaluated, refuse } from "../values/refusal";
import { TooMuchWork } from "../work-limits";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { readDirectScalar, visitValues } from "./gather";

/** One of several branches, for each element of a condition. */
function choose(
  caller: Caller,
  condition: Scalar | Matrix,
  branches: readonly (Lazy | undefined)[],
  pick: (value: Scalar) => number | ErrorValue,
): Value {
  if (!(condition instanceof Matrix)) {
    const turn = pick(condition);
    return isError(turn) ? turn : evaluateBranch(branches[turn]);
  }
  refuseDoubtfulLifting(caller, [condition]);
  const needed = new Set(condition.values.map(pick));
  const inputs = branches.map((branch, place) => {
    if (needed.has(place)) return evaluateBranchScalars(branch);
    readUnneeded(branch);
    return null;
  });
  return broadcast(
    [condition, ...inputs],
    ([value = null, ...results]) => {
      const turn = pick(value);
      return isError(turn) ? turn : (results[turn] ?? null);
    },
    true,
  );
}

/** A branch that no element of a condition takes is read all the same: a circle through it is one to Excel. */
function readUnneeded(branch: Lazy | undefined): void {
  try {
    evaluateBranchScalars(branch);
  } catch (problem) {
    if (!(problem instanceof NotEvaluated) || problem instanceof TooMuchWork) throw problem;
  }
}

const evaluateBranch = (branch: Lazy | undefined): Value =>
  branch === undefined ? false : branch.empty ? 0 : branch.value();
const evaluateBranchScalars = (branch: Lazy | undefined): Scalar | Matrix =>
  branch === undefined ? false : branch.empty ? 0 : branch.scalars();

/** IFERROR and IFNA: the value, or another in the place of errors of a kind. */
function replaceErrors(first: Lazy, second: Lazy, isCaught: (error: ErrorValue) => boolean, caller: Caller): Value {
  const value = first.empty ? 0 : first.value();
  const scalars = settleValue(value, caller);
  if (!(scalars instanceof Matrix)) return isError(scalars) && isCaught(scalars) ? evaluateBranch(second) : value;
  refuseDoubtfulLifting(caller, [scalars]);
  if (!scalars.values.some((element) => isError(element) && isCaught(element))) return scalars;
  return broadcast(
    [scalars, evaluateBranchScalars(second)],
    ([element = null, other = null]) => (isError(element) && isCaught(element) ? other : element),
    true,
  );
}

function settleValue(value: Value, caller: Caller): Scalar | Matrix {
  if (value instanceof Matrix) return value;
  return caller.inArray ? caller.scalars(value) : caller.scalar(value);
}

/** AND, OR, XOR: logical values and numbers of all arguments; text and blanks in ranges do not count, none at all is #VALUE!. */
const defineOnTruths = (compute: (truths: readonly boolean[]) => boolean) =>
  takesMany([], ["values"], 1, (_, given, caller) => {
    const truths: boolean[] = [];
    for (const value of given) {
      if (value instanceof Reference || value instanceof Matrix) {
        const problem = visitValues(value, caller, (element) => {
          if (typeof element !== "string") truths.push(Boolean(element));
          return undefined;
        });
        if (problem) return problem;
        continue;
      }
      const scalar = value instanceof Omitted ? false : readDirectScalar(value);
      // An empty text given directly counts as little as one in a range.
      if (scalar === "") continue;
      const truth = toLogical(scalar);
      if (isError(truth))
        return typeof scalar === "string" && given.length > 1 ? refuse("text among truth values") : truth;
      truths.push(truth);
    }
    return truths.length === 0 ? errors.value : compute(truths);
  });

const readTruth = (value: Scalar): number | ErrorValue => {
  const truth = toLogical(value);
  return isError(truth) ? truth : truth ? 0 : 1;
};

/** Conditions and logical values. */
export const logic: FunctionTable = {
  TRUE: takes([], () => true),
  FALSE: takes([], () => false),
  NOT: takes(["logical"], ([value]) => !value),
  AND: defineOnTruths((truths) => truths.every(Boolean)),
  OR: defineOnTruths((truths) => truths.some(Boolean)),
  XOR: defineOnTruths((truths) => truths.filter(Boolean).length % 2 === 1),
  IF: takes(["lazy", "lazy", "lazy?"], ([condition, yes, no], caller) =>
    choose(caller, condition.scalars(), [yes, no], readTruth),
  ),
  IFERROR: takes(["lazy", "lazy"], ([value, other], caller) => replaceErrors(value, other, () => true, caller)),
  IFNA: takes(["lazy", "lazy"], ([value, other], caller) =>
    replaceErrors(value, other, (error) => error.code === "#N/A", caller),
  ),
  CHOOSE: takesMany(["lazy"], ["lazy"], 2, ([index], rest, caller) =>
    choose(caller, index.scalars(), rest, (value) => {
      const number = toNumber(value);
      if (isError(number)) return number;
      const place = toInteger(number);
      return place >= 1 && place <= rest.length ? place - 1 : errors.value;
    }),
  ),
};

/** IFS and SWITCH in pairs: the first that holds, evaluated one by one; an array of conditions is another matter. */
function findFirstHolding(
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
    if (held) return evaluateBranch(pairs[place + 1]);
  }
  return otherwise;
}

/** The same for each element of arrays; all conditions and values are then evaluated. The first input is what SWITCH compares. */
function findFirstOfEach(
  subject: Scalar | Matrix,
  pairs: readonly Lazy[],
  otherwise: Lazy | undefined,
  holds: (subject: Scalar, value: Scalar) => boolean | ErrorValue,
  caller: Caller,
): Value {
  const inputs = [
    subject,
    ...pairs.map(evaluateBranchScalars),
    otherwise ? evaluateBranchScalars(otherwise) : errors.notAvailable,
  ];
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

/** A blank is neither FALSE nor an empty text to SWITCH. */
const equalsSubject = (subject: Scalar, other: Scalar): boolean | ErrorValue => {
  if (isError(subject)) return subject;
  if (isError(other)) return refuse("an error value among those that SWITCH compares");
  if (subject !== null && other !== null) return areEqual(subject, other);
  const isDoubtful = (value: Scalar): boolean => value === null || value === 0;
  return isDoubtful(subject) && isDoubtful(other) ? refuse("a blank that SWITCH compares with a blank or a 0") : false;
};

/** Choices among pairs of a condition and a value. */
export const choices: FunctionTable = {
  IFS: takesMany([], ["lazy"], 2, (_, pairs, caller) => {
    if (pairs.length % 2 !== 0) return refuse("IFS has an odd number of arguments");
    return findFirstHolding(pairs, toLogical, errors.notAvailable, (rest) =>
      findFirstOfEach(null, rest, undefined, (__, value) => toLogical(value), caller),
    );
  }),
  SWITCH: takesMany(["lazy"], ["lazy"], 3, ([subject], rest, caller) => {
    const value = subject.scalars();
    const otherwise = rest.length % 2 === 1 ? rest.at(-1) : undefined;
    const pairs = otherwise ? rest.slice(0, -1) : rest;
    if (value instanceof Matrix) return findFirstOfEach(value, pairs, otherwise, equalsSubject, caller);
    if (isError(value)) return value;
    const found = findFirstHolding(
      pairs,
      (other) => equalsSubject(value, other),
      Omitted.value,
      (left) => findFirstOfEach(value, left, otherwise, equalsSubject, caller),
    );
    return found === Omitted.value ? (otherwise ? evaluateBranch(otherwise) : errors.notAvailable) : found;
  }),
};
