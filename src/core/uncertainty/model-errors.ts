import { effects, type Effect, type Source } from "./source";

/** Errors of a test by the place where they act: effects in their order, then those of each further opening, two by two. */
export type ModelErrors = Float64Array;

/** Places of the effects. */
export const place = Object.fromEntries(effects.map((effect, index) => [effect, index])) as Readonly<
  Record<Effect, number>
>;

/** Places for as many openings as there are letters. */
const size = effects.length + 2 * 25;

/** No error anywhere. */
export function noErrors(): ModelErrors {
  return new Float64Array(size);
}

/** Where a source acts. */
export function placeOf({ effect, opening = 0 }: Pick<Source, "effect" | "opening">): number {
  return place[effect] + 2 * opening;
}
