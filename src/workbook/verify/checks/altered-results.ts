import { placeKey } from "../book-view";
import { upstream } from "../chain";
import type { Finding } from "../finding";
import { housePairs } from "../house-pairs";
import type { Check, Review } from "../review";
import { askedOf, rowOfSymbol, type WholeTest } from "../whole-tests";
import { figure } from "../words";

const symbols = ["n50", "q50", "qE50", "qF50", "n_pr", "q_pr", "qE_pr", "qF_pr", "ELA4", "AL10", "EqLA10"];
const mostDecimals = 4;
/** Nearer than this a figure is one of the test's own, altered; further away it is another quantity. */
const near = 0.3;

/** A verdict on a figure that rests on one house's tests, lies close to their result and below it, but is none of their results: a factor or a deduction on the way. */
export const alteredResults: Check = (review) => {
  const { view, verdicts, tests, twins } = review;
  const pairs = housePairs(view, twins, tests);
  return verdicts.flatMap(({ result, call }): Finding[] => {
    const place = result?.area && view.cellsIn(result.area)[0];
    const value = place && view.number(place);
    if (!place || value === undefined || !(value > 0)) return [];
    const behind = upstream(view, result.areas);
    const own = tests.filter(({ readings }) => readings.some(({ pressure }) => behind.has(placeKey(pressure))));
    if (own.length === 0 || !isOneHouse(own, pairs)) return [];
    const results = symbols.flatMap((symbol) => resultsOf(review, own, symbol));
    if (results.length === 0 || results.some((known) => isSame(known, value))) return [];
    const closest = results.reduce((best, known) => (apart(known, value) < apart(best, value) ? known : best));
    if (value >= closest || apart(closest, value) > near) return [];
    return [
      {
        kind: "result altered",
        severity: "doubtful",
        place: view.address(place),
        what: `The verdict in ${view.address(call.place)} goes by ${figure(value, 6)}, which is none of the results of the tests behind it; the closest is ${figure(closest, 6)}.`,
        why: "A factor or a deduction between the test's result and the verdict flatters the house.",
        todo: "Follow the cell back to the test's table and ask for the rule behind each step.",
      },
    ];
  });
};

function isOneHouse(tests: readonly WholeTest[], pairs: readonly (readonly [WholeTest, WholeTest])[]): boolean {
  const [first] = tests;
  const house = new Set(first ? [first] : []);
  for (let size = 0; size !== house.size;) {
    size = house.size;
    for (const pair of pairs) if (pair.some((test) => house.has(test))) pair.forEach((test) => house.add(test));
  }
  return tests.every((test) => house.has(test));
}

/** Every result of a symbol that a report may go by: of a run, of a direction, the mean of the directions, the mean of all. */
function resultsOf({ view, addIn }: Review, tests: readonly WholeTest[], symbol: string): number[] {
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

const apart = (known: number, value: number): number => Math.abs(value / known - 1);

/** The same figure, or rounded as a report rounds. */
function isSame(known: number, value: number): boolean {
  if (apart(known, value) <= 1e-9) return true;
  for (let decimals = 0; decimals <= mostDecimals; decimals++) {
    const isRounded = Math.abs(value * 10 ** decimals - Math.round(value * 10 ** decimals)) < 1e-9;
    if (isRounded && Math.abs(known - value) <= 0.5000001 * 10 ** -decimals) return true;
  }
  return false;
}
