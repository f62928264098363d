import { boundArray } from "../values/broadcast";
import { spend } from "../work-limits";
import { isError, toInteger } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, requireFinite, Matrix, type Scalar } from "../values/value";
import { collectPairs } from "./gather";
import { countMultiples } from "./rounding";

/** Sums over pairs of two ranges of one size; pairs with text, truth values or blanks are left out. */
const defineOverPairs = (term: (x: number, y: number) => number) =>
  takes(["array", "array"], ([first, second], caller) => {
    if (first.rows !== second.rows || first.columns !== second.columns) {
      return first.values.length === second.values.length
        ? refuse(`${caller.name} of ranges that lie differently`)
        : errors.notAvailable;
    }
    const pairs = collectPairs(first, second, caller);
    if (isError(pairs)) return pairs;
    if (pairs.x.length === 0) return refuse(`${caller.name} without a pair of numbers`);
    return requireFinite(pairs.x.reduce((total, x, place) => total + term(x, pairs.y[place] ?? 0), 0));
  });

function multiplyMatrices(first: Matrix, second: Matrix): Matrix | Scalar {
  const all = [...first.values, ...second.values];
  const wrong = all.find((value) => isError(value));
  if (wrong !== undefined) return wrong;
  if (all.some((value) => typeof value !== "number") || first.columns !== second.rows) return errors.value;
  boundArray(first.rows, second.columns);
  spend(first.rows * second.columns * first.columns);
  // One sum too large for a number fails all of them.
  const values: number[] = [];
  for (let place = 0; place < first.rows * second.columns; place += 1) {
    const row = Math.floor(place / second.columns);
    const column = place % second.columns;
    let total = 0;
    for (let at = 0; at < first.columns; at += 1)
      total += (first.at(row, at) as number) * (second.at(at, column) as number);
    if (!Number.isFinite(total)) return errors.number;
    values.push(total);
  }
  return new Matrix(first.rows, second.columns, values);
}

/** CEILING.PRECISE and FLOOR.PRECISE: the sign of the significance does not count. */
const toPreciseMultiple = (direction: "up" | "down") =>
  takes(["number", "number??"], ([value, significance = 1]) => {
    const step = Math.abs(significance);
    return value === 0 || step === 0
      ? 0
      : requireFinite(Number((countMultiples(value, step, direction) * step).toPrecision(15)));
  });

/** CEILING.MATH and FLOOR.MATH: the same, and negative numbers go up or down by the mode. */
const toMultipleOf = (direction: "up" | "down") =>
  takes(["number", "number??", "number??"], ([value, significance = 1, mode = 0]) => {
    const step = Math.abs(significance);
    if (value === 0 || step === 0) return 0;
    const turned = value < 0 && mode !== 0;
    const times = countMultiples(value, step, turned ? (direction === "up" ? "down" : "up") : direction);
    return requireFinite(Number((times * step).toPrecision(15)));
  });

function computeFactorial(given: number): Scalar {
  const whole = toInteger(given);
  if (whole < 0 || whole > 170) return errors.number;
  let value = 1;
  for (let factor = 2; factor <= whole; factor += 1) value *= factor;
  return value;
}

function countCombinations(given: number, taken: number): Scalar {
  const all = toInteger(given);
  const some = toInteger(taken);
  if (all < 0 || some < 0 || all < some) return errors.number;
  const fewer = Math.min(some, all - some);
  if (fewer > 10_000) return refuse("COMBIN of so many");
  let value = 1;
  for (let place = 1; place <= fewer; place += 1) value = (value * (all - fewer + place)) / place;
  return requireFinite(value < 2 ** 53 ? Math.round(value) : value);
}

/** Products and sums of products, of matrices too; counts of arrangements; multiples. */
export const products: FunctionTable = {
  SUMXMY2: defineOverPairs((x, y) => (x - y) ** 2),
  SUMX2MY2: defineOverPairs((x, y) => x * x - y * y),
  SUMX2PY2: defineOverPairs((x, y) => x * x + y * y),
  MMULT: takes(["array", "array"], ([first, second]) => multiplyMatrices(first, second)),
  "CEILING.MATH": toMultipleOf("up"),
  "FLOOR.MATH": toMultipleOf("down"),
  "CEILING.PRECISE": toPreciseMultiple("up"),
  "ISO.CEILING": toPreciseMultiple("up"),
  "FLOOR.PRECISE": toPreciseMultiple("down"),
  FACT: takes(["number"], ([value]) => computeFactorial(value)),
  COMBIN: takes(["number", "number"], ([all, some]) => countCombinations(all, some)),
};
