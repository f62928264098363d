import { ErrorValue } from "../../model";
import { type AddInCall, type AddInFunction, type AddInRegistry } from "./add-in";

/** A function's result for some arguments, or the problem it threw. */
export type Answer = { readonly given: unknown } | { readonly problem: unknown };

/** Characters of remembered arguments; a large workbook has a tenth of this. */
const mostRemembered = 50_000_000;

/**
 * The add-in's functions, memoized: a budget with a simulation takes seconds, and a
 * review evaluates its workbook several times.
 * @param calls Calls made in an earlier evaluation.
 */
export function rememberAnswers(addIn: AddInRegistry, calls: readonly AddInCall[] = []): AddInRegistry {
  const answers = new Map<string, Answer>();
  let length = 0;
  const remember = (key: string, answer: Answer): Answer => {
    length += key.length;
    if (length > mostRemembered) {
      answers.clear();
      length = key.length;
    }
    answers.set(key, answer);
    return answer;
  };
  for (const { id, given, answer } of calls)
    if (!(answer instanceof ErrorValue)) remember(buildKey(id, given), { given: answer });
  return new Map(
    [...addIn].map(([id, entry]): [string, AddInFunction] => {
      const compute = (...given: unknown[]): unknown => {
        const key = buildKey(id, given);
        const answer =
          answers.get(key) ??
          remember(
            key,
            ask(() => entry.compute(...given)),
          );
        if ("problem" in answer) throw answer.problem;
        return answer.given;
      };
      return [id, { ...entry, compute }];
    }),
  );
}

export function ask(compute: () => unknown): Answer {
  try {
    return { given: compute() };
  } catch (problem) {
    return { problem };
  }
}

const buildKey = (id: string, given: readonly unknown[]): string => JSON.stringify([id, given]);
