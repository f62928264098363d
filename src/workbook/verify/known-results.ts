import type { Review } from "./review";
import { askedOf, rowOfSymbol, type WholeTest } from "./whole-tests";

const mostDecimals = 4;

/** Every result of a symbol that a report may go by: of a run, of a direction, the mean of the directions, the mean of all. */
export function resultsOf({ view, addIn }: Review, tests: readonly WholeTest[], symbol: string): number[] {
  const of = (chosen: readonly WholeTest[]): number[] =>
    chosen.flatMap((test) => rowOfSymbol(askedOf(view, addIn, "TESTRESULT", test), symbol) ?? []);
  const directions = (["depressurization", "pressurization"] as const).map((way) =>
    of(tests.filter(({ direction }) => direction === way)),
  );
  const all = directions.flat();
  const means = directions.flatMap((values) => (values.length > 0 ? [mean(values)] : []));
  return all.length === 0 ? [] : [...all, ...means, mean(means), mean(all)];
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** How far a figure lies from a known one, as a share of it. */
export const apart = (known: number, value: number): number => Math.abs(value / known - 1);

/** The same figure, or rounded as a report rounds. */
export function isSame(known: number, value: number): boolean {
  if (apart(known, value) <= 1e-9) return true;
  for (let decimals = 0; decimals <= mostDecimals; decimals++) {
    const isRounded = Math.abs(value * 10 ** decimals - Math.round(value * 10 ** decimals)) < 1e-9;
    if (isRounded && Math.abs(known - value) <= 0.5000001 * 10 ** -decimals) return true;
  }
  return false;
}
