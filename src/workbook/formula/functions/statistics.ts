import { type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, requireFinite, Matrix, Reference, type Scalar, type Value } from "../values/value";
import { spend } from "../work-limits";
import { isSingleCell } from "../../book/area";
import { collectAllNumbers, sum } from "./aggregate";
import { readMatrix, collectNumbers } from "./gather";
import { roundDecimal } from "./rounding";

/** The arithmetic mean; of nothing it is NaN. */
export const mean = (numbers: readonly number[]): number => sum(numbers) / numbers.length;

/** The sum of squared (or higher) deviations from the mean, centred first. */
export function sumCentredPowers(numbers: readonly number[], power = 2): number {
  const centre = mean(numbers);
  return numbers.reduce((total, number) => total + (number - centre) ** power, 0);
}

/** The sum of products of deviations of pairs. */
export function sumCentredProducts(x: readonly number[], y: readonly number[]): number {
  const centreX = mean(x);
  const centreY = mean(y);
  return x.reduce((total, value, place) => total + (value - centreX) * ((y[place] ?? 0) - centreY), 0);
}

/** Variance with n − lost degrees of freedom; too few numbers are #DIV/0!. */
function computeVariance(numbers: readonly number[], lost: 0 | 1): Scalar {
  const freedom = numbers.length - lost;
  return freedom > 0 ? requireFinite(sumCentredPowers(numbers) / freedom) : errors.division;
}

function computeDeviation(numbers: readonly number[], lost: 0 | 1): Scalar {
  const square = computeVariance(numbers, lost);
  return typeof square === "number" ? Math.sqrt(square) : square;
}

/** The quantile of sorted numbers for a given fraction, ends included. */
function findInclusivePercentile(sorted: readonly number[], share: number): Scalar {
  if (sorted.length === 0 || !(share >= 0 && share <= 1)) return errors.number;
  return interpolateBetween(sorted, share * (sorted.length - 1));
}

/** The same with the ends left out. */
function findExclusivePercentile(sorted: readonly number[], share: number): Scalar {
  const place = share * (sorted.length + 1);
  if (sorted.length === 0 || !(place >= 1 && place <= sorted.length)) return errors.number;
  return interpolateBetween(sorted, place - 1);
}

function interpolateBetween(sorted: readonly number[], place: number): Scalar {
  const low = Math.floor(place);
  const lower = sorted[low] ?? 0;
  const upper = sorted[Math.min(low + 1, sorted.length - 1)] ?? lower;
  return requireFinite(lower + (place - low) * (upper - lower));
}

/** The share of sorted numbers below a value, between two of them by interpolation, cut to some digits. */
function findPercentRank(sorted: readonly number[], value: number, digits: number, inclusive: boolean): Scalar {
  if (sorted.length === 0 || digits < 1) return errors.number;
  const last = sorted[sorted.length - 1] ?? 0;
  const first = sorted[0] ?? 0;
  if (!(value >= first && value <= last)) return errors.notAvailable;
  const at = sorted.findIndex((number) => number >= value);
  const upper = sorted[at] ?? last;
  const lower = sorted[at - 1] ?? upper;
  const place = upper === value ? at : at - 1 + (value - lower) / (upper - lower);
  if (inclusive && sorted.length === 1) return 1;
  const share = inclusive ? place / (sorted.length - 1) : (place + 1) / (sorted.length + 1);
  return roundDecimal(share, digits, "down");
}

const defineOnNumbers = (compute: (numbers: readonly number[]) => Scalar) =>
  takesMany([], ["values"], 1, (_, given, caller) => {
    const numbers = collectNumbers(given, caller);
    return isError(numbers) ? numbers : compute(numbers);
  });

const defineOnAllValues = (compute: (numbers: readonly number[]) => Scalar) =>
  takesMany([], ["values"], 1, (_, given, caller) => {
    const numbers = collectAllNumbers(given, caller);
    return isError(numbers) ? numbers : compute(numbers);
  });

/** A function of numbers and one more value: LARGE, PERCENTILE. */
const defineOnNumbersAndValue = (compute: (numbers: readonly number[], value: number) => Scalar) =>
  takes(["values", "number"], ([given, value], caller) => {
    const numbers = collectNumbers([given], caller);
    return isError(numbers) ? numbers : compute(numbers, value);
  });

function sortAscending(numbers: readonly number[]): number[] {
  spend(5 * numbers.length * Math.ceil(Math.log2(numbers.length + 1)));
  return [...numbers].sort((a, b) => a - b);
}

function pickRanked(numbers: readonly number[], place: number, fromTop: boolean): Scalar {
  const sorted = sortAscending(numbers);
  const at = (turn: number): number | undefined =>
    turn < 1 ? undefined : fromTop ? sorted[sorted.length - turn] : sorted[turn - 1];
  const [lower, upper] = [at(Math.floor(place)), at(Math.ceil(place))];
  // Whether a rank between two whole numbers is cut or raised is not documented.
  return lower === upper ? (upper ?? errors.number) : refuse("a rank that is no whole number");
}

/** The number met most often, #N/A where none is met twice; of several met equally often Excel's choice is not documented. */
function findMode(numbers: readonly number[]): Scalar {
  const counts = new Map<number, number>();
  for (const number of numbers) counts.set(number, (counts.get(number) ?? 0) + 1);
  let most = 0;
  for (const count of counts.values()) most = Math.max(most, count);
  if (most < 2) return errors.notAvailable;
  const found = [...counts].filter(([, count]) => count === most);
  return found.length === 1 ? (found[0]?.[0] ?? 0) : refuse("several numbers are met equally often");
}

const modeEntry = takesMany([], ["table"], 1, (_, given, caller) => {
  const isDoubtful = (value: Value): boolean => {
    if (value instanceof Matrix || isError(value)) return false;
    if (!(value instanceof Reference)) return typeof value !== "number";
    return value.area !== undefined && isSingleCell(value.area) && typeof caller.scalar(value) !== "number";
  };
  if (given.some(isDoubtful)) return refuse(`${caller.name} of a single value that is no number`);
  const numbers = collectNumbers(given, caller);
  return isError(numbers) ? numbers : findMode(numbers);
});

const rank = takes(["number", "reference", "number?"], ([value, reference, order = 0], caller) => {
  const numbers = collectNumbers([reference], caller);
  if (isError(numbers)) return numbers;
  if (!numbers.includes(value)) return errors.notAvailable;
  return 1 + numbers.filter((number) => (order === 0 ? number > value : number < value)).length;
});

function findMedian(numbers: readonly number[]): Scalar {
  return numbers.length === 0 ? errors.number : findInclusivePercentile(sortAscending(numbers), 0.5);
}

/** Of equal numbers nothing but rounding error may be left to give the shape of. */
function refuseEqual(numbers: readonly number[]): void {
  if (numbers.every((number) => number === numbers[0]) && sumCentredPowers(numbers) !== 0)
    refuse("the shape of equal numbers, where only rounding error is left");
}

function computeSkewness(numbers: readonly number[]): Scalar {
  const n = numbers.length;
  refuseEqual(numbers);
  const s = computeDeviation(numbers, 1);
  if (n < 3 || typeof s !== "number" || s === 0) return errors.division;
  return requireFinite((n * sumCentredPowers(numbers, 3)) / ((n - 1) * (n - 2) * s ** 3));
}

function computeKurtosis(numbers: readonly number[]): Scalar {
  const n = numbers.length;
  refuseEqual(numbers);
  const s = computeDeviation(numbers, 1);
  if (n < 4 || typeof s !== "number" || s === 0) return errors.division;
  const first = (n * (n + 1) * sumCentredPowers(numbers, 4)) / ((n - 1) * (n - 2) * (n - 3) * s ** 4);
  return requireFinite(first - (3 * (n - 1) ** 2) / ((n - 2) * (n - 3)));
}

const requirePositive = (compute: (numbers: readonly number[]) => number) => (numbers: readonly number[]) =>
  numbers.length === 0 || numbers.some((number) => number <= 0) ? errors.number : requireFinite(compute(numbers));

/** Spread, rank and shape of numbers. */
export const statistics: FunctionTable = {
  MEDIAN: defineOnNumbers(findMedian),
  MODE: modeEntry,
  "MODE.SNGL": modeEntry,
  LARGE: defineOnNumbersAndValue((numbers, place) => pickRanked(numbers, place, true)),
  SMALL: defineOnNumbersAndValue((numbers, place) => pickRanked(numbers, place, false)),
  RANK: rank,
  "RANK.EQ": rank,
  "RANK.AVG": takes(["number", "reference", "number?"], ([value, reference, order = 0], caller) => {
    const numbers = collectNumbers([reference], caller);
    if (isError(numbers)) return numbers;
    const equals = numbers.filter((number) => number === value).length;
    const before = numbers.filter((number) => (order === 0 ? number > value : number < value)).length;
    return equals === 0 ? errors.notAvailable : before + (equals + 1) / 2;
  }),
  PERCENTILE: defineOnNumbersAndValue((numbers, share) => findInclusivePercentile(sortAscending(numbers), share)),
  "PERCENTILE.INC": defineOnNumbersAndValue((numbers, share) => findInclusivePercentile(sortAscending(numbers), share)),
  "PERCENTILE.EXC": defineOnNumbersAndValue((numbers, share) => findExclusivePercentile(sortAscending(numbers), share)),
  QUARTILE: defineOnNumbersAndValue((numbers, quarter) =>
    findInclusivePercentile(sortAscending(numbers), Math.floor(quarter) / 4),
  ),
  "QUARTILE.INC": defineOnNumbersAndValue((numbers, quarter) =>
    findInclusivePercentile(sortAscending(numbers), Math.floor(quarter) / 4),
  ),
  "QUARTILE.EXC": defineOnNumbersAndValue((numbers, quarter) =>
    findExclusivePercentile(sortAscending(numbers), Math.floor(quarter) / 4),
  ),
  "PERCENTRANK.INC": definePercentRank(true),
  PERCENTRANK: definePercentRank(true),
  "PERCENTRANK.EXC": definePercentRank(false),
  STDEV: defineOnNumbers((numbers) => computeDeviation(numbers, 1)),
  "STDEV.S": defineOnNumbers((numbers) => computeDeviation(numbers, 1)),
  STDEVP: defineOnNumbers((numbers) => computeDeviation(numbers, 0)),
  "STDEV.P": defineOnNumbers((numbers) => computeDeviation(numbers, 0)),
  STDEVA: defineOnAllValues((numbers) => computeDeviation(numbers, 1)),
  STDEVPA: defineOnAllValues((numbers) => computeDeviation(numbers, 0)),
  VAR: defineOnNumbers((numbers) => computeVariance(numbers, 1)),
  "VAR.S": defineOnNumbers((numbers) => computeVariance(numbers, 1)),
  VARP: defineOnNumbers((numbers) => computeVariance(numbers, 0)),
  "VAR.P": defineOnNumbers((numbers) => computeVariance(numbers, 0)),
  DEVSQ: defineOnNumbers((numbers) =>
    numbers.length === 0 ? errors.number : requireFinite(sumCentredPowers(numbers)),
  ),
  AVEDEV: defineOnNumbers((numbers) => {
    const centre = mean(numbers);
    return numbers.length === 0
      ? errors.number
      : requireFinite(mean(numbers.map((number) => Math.abs(number - centre))));
  }),
  GEOMEAN: defineOnNumbers(requirePositive((numbers) => Math.exp(mean(numbers.map(Math.log))))),
  HARMEAN: defineOnNumbers(requirePositive((numbers) => numbers.length / sum(numbers.map((number) => 1 / number)))),
  SKEW: defineOnNumbers(computeSkewness),
  "SKEW.P": defineOnNumbers((numbers) => {
    refuseEqual(numbers);
    const s = computeDeviation(numbers, 0);
    if (numbers.length < 3 || typeof s !== "number" || s === 0) return errors.division;
    return requireFinite(sumCentredPowers(numbers, 3) / (numbers.length * s ** 3));
  }),
  KURT: defineOnNumbers(computeKurtosis),
  TRIMMEAN: defineOnNumbersAndValue((numbers, share) => {
    if (share < 0 || share >= 1 || numbers.length === 0) return errors.number;
    const trimmed = Math.floor((numbers.length * share) / 2 + 1e-12);
    return requireFinite(mean(sortAscending(numbers).slice(trimmed, numbers.length - trimmed)));
  }),
  FREQUENCY: takes(["table", "table"], ([data, bins], caller) => {
    const numbers = collectNumbers([data], caller);
    const limits = readMatrix(bins, caller);
    if (isError(numbers)) return numbers;
    if (isError(limits)) return limits;
    if (limits.values.some((limit) => typeof limit !== "number"))
      return refuse("FREQUENCY with limits that are no numbers");
    const edges = limits.values as readonly number[];
    const sorted = [...new Set(sortAscending(edges))];
    const counts = Array<number>(edges.length + 1).fill(0);
    spend(2 * numbers.length * edges.length);
    for (const number of numbers) {
      const limit = sorted.find((edge) => number <= edge);
      // Of equal limits the first one counts, wherever it is.
      const place = limit === undefined ? edges.length : edges.indexOf(limit);
      counts[place] = (counts[place] ?? 0) + 1;
    }
    return new Matrix(counts.length, 1, counts);
  }),
};

function definePercentRank(inclusive: boolean) {
  return takes(["values", "number", "number?"], ([given, value, digits = 3], caller) => {
    const numbers = collectNumbers([given], caller);
    return isError(numbers) ? numbers : findPercentRank(sortAscending(numbers), value, toInteger(digits), inclusive);
  });
}
