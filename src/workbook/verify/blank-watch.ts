import type { AddInCall, AddInFunction, AddInRegistry } from "../formula/calls/add-in";
import { type Answer, ask } from "../formula/calls/remember-answers";

/** In place of a blank cell among the arguments of a function. */
export const blank = Symbol("a blank cell");

/**
 * Functions that answer as if each blank were null, and note whether 0 in its place, as some versions of Excel pass it, would change an
 * answer. As long as none changes, a workbook gives the same under both conventions and need not be evaluated again.
 */
export class BlankWatch {
  matters = false;
  readonly functions: AddInRegistry;

  constructor(functions: AddInRegistry) {
    this.functions = new Map(
      [...functions].map(([id, entry]): [string, AddInFunction] => [
        id,
        { ...entry, compute: (...given) => this.ask(entry, given) },
      ]),
    );
  }

  private ask({ compute }: AddInFunction, given: readonly unknown[]): unknown {
    if (!hasBlank(given)) return compute(...given);
    const fill = (value: unknown) => ask(() => compute(...given.map((argument) => fillBlanks(argument, value))));
    const asNull = fill(null);
    this.matters ||= describeAnswer(asNull) !== describeAnswer(fill(0));
    if ("problem" in asNull) throw asNull.problem;
    return asNull.given;
  }
}

/** A recorded call as it would have been without the watch. */
export const withBlanksAsNull = (call: AddInCall): AddInCall =>
  hasBlank(call.given) ? { ...call, given: call.given.map((argument) => fillBlanks(argument, null)) } : call;

const hasBlank = (value: unknown): boolean => value === blank || (Array.isArray(value) && value.some(hasBlank));

function fillBlanks(given: unknown, by: unknown): unknown {
  if (Array.isArray(given)) return given.map((one) => fillBlanks(one, by));
  return given === blank ? by : given;
}

/** An answer as text; each refusal differs from any other, since its reason may. */
const describeAnswer = (answer: Answer): unknown =>
  "problem" in answer ? Symbol("refused") : JSON.stringify(answer.given);
