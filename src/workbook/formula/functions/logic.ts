import type { ErrorValue } from "../../model";
import { broadcast } from "../values/broadcast";
import type { Caller } from "../calls/caller";
import { isError, toInteger, toLogical, toNumber } from "../values/coerce";
import { takes, takesMany, type FunctionTable, type Lazy } from "../calls/function-entry";
import { refuseDoubtfulLifting } from "../calls/lifting";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { directScalar, visitValues } from "./gather";

/** One of several branches, for each element of a condition. */
function choose(
  caller: Caller,
  condition: Scalar | Matrix,
  branches: readonly (Lazy | undefined)[],
  pick: (value: Scalar) => number | ErrorValue,
): Value {
  if (!(condition instanceof Matrix)) {
    const turn = pick(condition);
    return isError(turn) ? turn : branchValue(branches[turn]);
  }
  refuseDoubtfulLifting(caller, [condition]);
  const needed = new Set(condition.values.map(pick));
  const inputs = branches.map((branch, place) => (needed.has(place) ? branchScalars(branch) : null));
  return broadcast(
    [condition, ...inputs],
    ([value = null, ...results]) => {
      const turn = pick(value);
      return isError(turn) ? turn : (results[turn] ?? null);
    },
    true,
  );
}

export const branchValue = (branch: Lazy | undefined): Value =>
  branch === undefined ? false : branch.empty ? 0 : branch.value();
export const branchScalars = (branch: Lazy | undefined): Scalar | Matrix =>
  branch === undefined ? false : branch.empty ? 0 : branch.scalars();

/** IFERROR and IFNA: the value, or another in the place of errors of a kind. */
function unless(first: Lazy, second: Lazy, isCaught: (error: ErrorValue) => boolean, caller: Caller): Value {
  const value = first.empty ? 0 : first.value();
  const scalars = settled(value, caller);
  if (!(scalars instanceof Matrix)) return isError(scalars) && isCaught(scalars) ? branchValue(second) : value;
  refuseDoubtfulLifting(caller, [scalars]);
  if (!scalars.values.some((element) => isError(element) && isCaught(element))) return scalars;
  return broadcast(
    [scalars, branchScalars(second)],
    ([element = null, other = null]) => (isError(element) && isCaught(element) ? other : element),
    true,
  );
}

function settled(value: Value, caller: Caller): Scalar | Matrix {
  if (value instanceof Matrix) return value;
  return caller.inArray ? caller.scalars(value) : caller.scalar(value);
}

/** AND, OR, XOR: logical values and numbers of all arguments; text and blanks in ranges do not count, none at all is #VALUE!. */
const ofTruths = (compute: (truths: readonly boolean[]) => boolean) =>
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
      const scalar = value instanceof Omitted ? false : directScalar(value);
      // An empty text given directly counts as little as one in a range.
      if (scalar === "") continue;
      const truth = toLogical(scalar);
      if (isError(truth))
        return typeof scalar === "string" && given.length > 1 ? refuse("text among truth values") : truth;
      truths.push(truth);
    }
    return truths.length === 0 ? errors.value : compute(truths);
  });

const truthOf = (value: Scalar): number | ErrorValue => {
  const truth = toLogical(value);
  return isError(truth) ? truth : truth ? 0 : 1;
};

/** Conditions and logical values. */
export const logic: FunctionTable = {
  TRUE: takes([], () => true),
  FALSE: takes([], () => false),
  NOT: takes(["logical"], ([value]) => !value),
  AND: ofTruths((truths) => truths.every(Boolean)),
  OR: ofTruths((truths) => truths.some(Boolean)),
  XOR: ofTruths((truths) => truths.filter(Boolean).length % 2 === 1),
  IF: takes(["lazy", "lazy", "lazy?"], ([condition, yes, no], caller) =>
    choose(caller, condition.scalars(), [yes, no], truthOf),
  ),
  IFERROR: takes(["lazy", "lazy"], ([value, other], caller) => unless(value, other, () => true, caller)),
  IFNA: takes(["lazy", "lazy"], ([value, other], caller) =>
    unless(value, other, (error) => error.code === "#N/A", caller),
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
