import { exact, type Exact } from "../../high-precision/decimal";
import type { Errors, Outcome } from "./whole-test";

/** With fifty digits a central difference of this step is right to some twenty-five; what is smaller than that is 0. */
const step = exact("1e-13");
const nothing = exact("1e-24");

/** Derivative of an output of the model with respect to one error, by central differences of the whole model. */
export function slopes(outcome: (errors: Errors) => Outcome): (name: string, output: (of: Outcome) => Exact) => Exact {
  const known = new Map<string, readonly [Outcome, Outcome]>();
  return (name, output) => {
    const moved = known.get(name) ?? [outcome({ [name]: step }), outcome({ [name]: step.negated() })];
    known.set(name, moved);
    const slope = output(moved[0]).minus(output(moved[1])).dividedBy(step.times(2));
    return slope.abs().lessThan(nothing) ? exact(0) : slope;
  };
}
