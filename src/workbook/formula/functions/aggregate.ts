import { sizeOf } from "../../book/area";
import { ErrorValue } from "../../model";
import { isError, toNumber } from "../values/coerce";
import { type Caller, type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, requireFinite, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { readDirectScalar, collectNumbers, visitValues } from "./gather";

/** A function of all the numbers given, whatever they come in. */
const defineOnNumbers = (compute: (numbers: readonly number[]) => Scalar, ignoresZeros = false) =>
  takesMany(
    [],
    ["values"],
    1,
    (_, given, caller) => {
      const numbers = collectNumbers(given, caller);
      return isError(numbers) ? numbers : compute(numbers);
    },
    ignoresZeros,
  );

/** The same where text in ranges counts as 0 and TRUE as 1 (AVERAGEA, MAXA, MINA). */
const defineOnAllValues = (compute: (numbers: readonly number[]) => Scalar) =>
  takesMany([], ["values"], 1, (_, given, caller) => {
    const numbers = collectAllNumbers(given, caller);
    return isError(numbers) ? numbers : compute(numbers);
  });

export function collectAllNumbers(given: readonly Value[], caller: Caller): number[] | ErrorValue {
  const numbers: number[] = [];
  for (const value of given) {
    if (value instanceof Reference || value instanceof Matrix) {
      const problem = visitValues(value, caller, (element) => {
        // In an array one of the two is left out, in a range neither.
        if (value instanceof Matrix && !value.fromCells && typeof element !== "number")
          refuse(`a text or a truth value in an array given to ${caller.name}`);
        numbers.push(typeof element === "string" ? 0 : Number(element));
        return undefined;
      });
      if (problem) return problem;
    } else {
      const number = toNumber(readDirectScalar(value));
      if (isError(number)) return number;
      numbers.push(number);
    }
  }
  return numbers;
}

/** The plain sum from left to right, as a spreadsheet adds. */
export const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

const computeMean = (numbers: readonly number[]): Scalar =>
  numbers.length === 0 ? errors.division : requireFinite(sum(numbers) / numbers.length);

function countOf(given: readonly Value[], caller: Caller, counts: (value: Exclude<Scalar, null>) => boolean): number {
  let count = 0;
  for (const value of given) {
    if (value instanceof Reference || value instanceof Matrix) {
      visitValues(
        value,
        caller,
        (element) => {
          if (counts(element)) count += 1;
          return undefined;
        },
        (error) => {
          if (counts(error)) count += 1;
          return undefined;
        },
      );
    } else count += isCountedDirectly(value, counts) ? 1 : 0;
  }
  return count;
}

function isCountedDirectly(
  value: Exclude<Value, Reference | Matrix>,
  counts: (value: Exclude<Scalar, null>) => boolean,
): boolean {
  const scalar = value instanceof Omitted ? 0 : (readDirectScalar(value) ?? 0);
  if (scalar instanceof ErrorValue) return counts(scalar);
  // COUNT takes logical values and numeric text that are given directly; COUNTA takes everything.
  return counts(scalar) || (!counts("") && typeof toNumber(scalar) === "number");
}

/** Sums, means, counts and extremes. */
export const aggregates: FunctionTable = {
  SUM: takesMany(
    [],
    ["values"],
    1,
    (_, given, caller) => {
      const [only] = given;
      const area = given.length === 1 && only instanceof Reference ? only.area : undefined;
      const total = area && caller.grid.sumDown(area);
      if (total !== undefined) return requireFinite(total);
      const numbers = collectNumbers(given, caller);
      return isError(numbers) ? numbers : requireFinite(sum(numbers));
    },
    true,
  ),
  SUMSQ: defineOnNumbers(
    (numbers) => requireFinite(numbers.reduce((total, number) => total + number * number, 0)),
    true,
  ),
  PRODUCT: defineOnNumbers((numbers) =>
    numbers.length === 0 ? 0 : requireFinite(numbers.reduce((total, number) => total * number, 1)),
  ),
  AVERAGE: defineOnNumbers(computeMean),
  AVERAGEA: defineOnAllValues(computeMean),
  MIN: defineOnNumbers((numbers) => numbers.reduce((least, number) => Math.min(least, number), numbers[0] ?? 0)),
  MAX: defineOnNumbers((numbers) => numbers.reduce((most, number) => Math.max(most, number), numbers[0] ?? 0)),
  MINA: defineOnAllValues((numbers) => numbers.reduce((least, number) => Math.min(least, number), numbers[0] ?? 0)),
  MAXA: defineOnAllValues((numbers) => numbers.reduce((most, number) => Math.max(most, number), numbers[0] ?? 0)),
  COUNT: takesMany([], ["values"], 1, (_, given, caller) =>
    countOf(given, caller, (value) => typeof value === "number"),
  ),
  COUNTA: takesMany([], ["values"], 1, (_, given, caller) => countOf(given, caller, () => true)),
  COUNTBLANK: takes(["reference"], ([range], caller) => {
    let count = 0;
    for (const area of range.areas) {
      count += sizeOf(area);
      caller.grid.visit(area, (value) => {
        if (value !== "") count -= 1;
      });
    }
    return range.areas.length === 1 ? count : errors.value;
  }),
  SUMPRODUCT: takesMany(
    [],
    ["array"],
    1,
    (_, arrays) => {
      const first = arrays[0] as Matrix;
      if (arrays.some(({ rows, columns }) => rows !== first.rows || columns !== first.columns)) return errors.value;
      const failed = arrays.flatMap(({ values }) => values.filter((value) => isError(value)));
      if (failed.some(({ code }) => code !== failed[0]?.code)) refuse("several different errors inside SUMPRODUCT");
      if (failed[0]) return failed[0];
      if (first.values.length === 1) {
        const single = arrays.map(({ values }) => values[0]);
        if (single.some((value) => typeof value === "string")) return errors.value;
        if (single.some((value) => typeof value === "boolean")) refuse("SUMPRODUCT of a single truth value");
      }
      let total = 0;
      for (let place = 0; place < first.values.length; place += 1) {
        let product = 1;
        for (const { values } of arrays) {
          const value = values[place];
          product *= typeof value === "number" ? value : 0;
        }
        total += product;
      }
      return requireFinite(total);
    },
    true,
  ),
};
