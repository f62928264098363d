import { toInteger } from "../values/coerce";
import { takes, takesMany, type FunctionTable } from "../calls/function-entry";
import { raiseToPower } from "../operators";
import { refuse } from "../values/refusal";
import { errors, requireFinite, type Scalar } from "../values/value";
import { isError } from "../values/coerce";
import { roundDown, collectIntegers, countMultiples, readPlainNumbers, roundDecimal } from "./rounding";

const computeLogarithm = (value: number, base: number) => {
  if (!(value > 0) || !(base > 0)) return errors.number;
  if (base === 1) return errors.division;
  if (base === 10) return Math.log10(value);
  return base === 2 ? Math.log2(value) : requireFinite(Math.log(value) / Math.log(base));
};

/** CEILING and FLOOR: mixed signs of a positive number and a negative significance are #NUM!. */
function toMultiple(value: number, significance: number, direction: "down" | "up") {
  if (value === 0) return 0;
  if (significance === 0) return direction === "up" ? 0 : errors.division;
  if (value > 0 && significance < 0) return errors.number;
  const times = countMultiples(value, significance, direction);
  return requireFinite(Number((times * significance).toPrecision(15)));
}

function roundToMultiple(value: number, multiple: number): Scalar {
  if (value === 0 || multiple === 0) return 0;
  if (value < 0 !== multiple < 0) return errors.number;
  const quotient = value / multiple;
  if (Math.abs(Math.abs(quotient % 1) - 0.5) < 1e-9 && !(Number.isInteger(value) && Number.isInteger(multiple)))
    refuse("MROUND halfway between two multiples, which Excel decides by rounding error");
  return requireFinite(Number((Math.round(quotient) * multiple).toPrecision(15)));
}

const isNearlyMultiple = (quotient: number): boolean => {
  const nearest = Math.round(quotient);
  return nearest !== 0 && Math.abs(quotient - nearest) <= 1e-9;
};

/** Arithmetic, rounding, logarithms and whole numbers. */
export const arithmeticFunctions: FunctionTable = {
  ABS: takes(["number"], ([value]) => Math.abs(value)),
  SIGN: takes(["number"], ([value]) => Math.sign(value) + 0),
  SQRT: takes(["number"], ([value]) => (value >= 0 ? Math.sqrt(value) : errors.number)),
  EXP: takes(["number"], ([value]) => requireFinite(Math.exp(value))),
  LN: takes(["number"], ([value]) => (value > 0 ? Math.log(value) : errors.number)),
  LOG10: takes(["number"], ([value]) => (value > 0 ? Math.log10(value) : errors.number)),
  LOG: takes(["number", "number?"], ([value, base = 10]) => computeLogarithm(value, base)),
  POWER: takes(["number", "number"], ([base, exponent]) => raiseToPower(base, exponent)),
  PI: takes([], () => Math.PI),
  INT: takes(["number"], ([value]) => roundDown(value)),
  TRUNC: takes(["number", "number?"], ([value, places = 0]) => roundDecimal(value, toInteger(places), "down")),
  ROUND: takes(["number", "number"], ([value, places]) => roundDecimal(value, toInteger(places), "nearest")),
  ROUNDUP: takes(["number", "number"], ([value, places]) => roundDecimal(value, toInteger(places), "up")),
  ROUNDDOWN: takes(["number", "number"], ([value, places]) => roundDecimal(value, toInteger(places), "down")),
  EVEN: takes(["number"], ([value]) => Math.sign(value) * 2 * countMultiples(Math.abs(value), 2, "up") + 0),
  ODD: takes(
    ["number"],
    ([value]) => (value < 0 ? -1 : 1) * (2 * countMultiples(Math.max(0, Math.abs(value) - 1), 2, "up") + 1),
  ),
  MROUND: {
    ...takes(["scalar??", "scalar??"], (given) => {
      // Of the former analysis add-in: an empty place is #N/A, a truth value #VALUE!.
      if (given.includes(undefined)) return errors.notAvailable;
      const numbers = readPlainNumbers(given.map((value) => value ?? null));
      if (isError(numbers)) return numbers;
      const [value = 0, multiple = 0] = numbers;
      return roundToMultiple(value, multiple);
    }),
    least: 2,
  },
  CEILING: takes(["number", "number"], ([value, significance]) => toMultiple(value, significance, "up")),
  FLOOR: takes(["number", "number"], ([value, significance]) => toMultiple(value, significance, "down")),
  MOD: takes(["number", "number"], ([value, divisor]) => {
    if (divisor === 0) return errors.division;
    if (Math.abs(value / divisor) > 1e12) return refuse("MOD of a number more than 1E12 times the divisor");
    // The exact remainder of the doubles, moved to the divisor's sign.
    const rest = value % divisor;
    // The remainder from the rounded quotient is then another: 0 for MOD(1, 0.1), and not 0.1.
    if (rest !== 0 && !(Number.isInteger(value) && Number.isInteger(divisor)) && isNearlyMultiple(value / divisor)) {
      return refuse("MOD of a number that is a multiple of the divisor but for rounding error");
    }
    return requireFinite(rest !== 0 && rest < 0 !== divisor < 0 ? rest + divisor : rest);
  }),
  QUOTIENT: takes(["scalar", "scalar"], ([numerator, denominator]) => {
    const given = readPlainNumbers([numerator, denominator]);
    if (isError(given)) return given;
    const [a = 0, b = 0] = given;
    return b === 0 ? errors.division : toInteger(a / b) + 0;
  }),
  GCD: takesMany([], ["values"], 1, (_, given, caller) => {
    const numbers = collectIntegers(given, caller);
    if (isError(numbers)) return numbers;
    return numbers.some((number) => number >= 2 ** 53) ? errors.number : numbers.reduce(findGreatestCommonDivisor, 0);
  }),
  LCM: takesMany([], ["values"], 1, (_, given, caller) => {
    const numbers = collectIntegers(given, caller);
    if (isError(numbers)) return numbers;
    const multiple = numbers.reduce(
      (least, n) => (least === 0 || n === 0 ? 0 : (least / findGreatestCommonDivisor(least, n)) * n),
      1,
    );
    return multiple >= 2 ** 53 ? errors.number : multiple;
  }),
};

function findGreatestCommonDivisor(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}
