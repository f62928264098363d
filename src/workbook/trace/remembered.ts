import type { AddInCall, AddInFunction, AddInRegistry } from "../formula/calls/add-in";

/** The add-in's functions, answering a call that was made before with what it gave then: a budget with a simulation takes seconds. */
export function rememberedRegistry(addIn: AddInRegistry, calls: readonly AddInCall[]): AddInRegistry {
  const answers = new Map(calls.map(({ id, given, answer }) => [keyOf(id, given), answer]));
  return new Map(
    [...addIn].map(([id, entry]): [string, AddInFunction] => {
      const compute = (...given: unknown[]): unknown => {
        const key = keyOf(id, given);
        if (!answers.has(key)) answers.set(key, entry.compute(...given));
        return answers.get(key);
      };
      return [id, { ...entry, compute }];
    }),
  );
}

const keyOf = (id: string, given: readonly unknown[]): string => JSON.stringify([id, given]);
