import type { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, requireFinite, type Scalar, type Value } from "../values/value";
import { dateFromSerial } from "./dates";
import { collectNumbers, readMatrix } from "./gather";

/** Payments at the end of each period (0) or at its beginning (1); any other number Excel takes for the beginning. */
const isEarly = (type: number): 0 | 1 => (type === 0 ? 0 : 1);

/** (1 + rate)^periods, and what a payment of 1 in each period grows to by then. */
function grow(rate: number, periods: number, early: 0 | 1): { readonly factor: number; readonly series: number } {
  if (rate === 0) return { factor: 1, series: periods };
  const factor = Math.pow(1 + rate, periods);
  // The difference from 1 keeps its digits for small rates.
  const gain = rate > -1 ? Math.expm1(periods * Math.log1p(rate)) : factor - 1;
  return { factor, series: ((1 + rate * early) * gain) / rate };
}

/** What money now and in each period is worth later, the sign of who pays kept: 0 = pv·factor + pmt·series + fv. */
function findFutureValue(rate: number, periods: number, payment: number, present: number, type: number): Scalar {
  const { factor, series } = grow(rate, periods, isEarly(type));
  return requireFinite(-(present * factor + payment * series) + 0);
}

function findPresentValue(rate: number, periods: number, payment: number, future: number, type: number): Scalar {
  if (rate === -1) return errors.division;
  const { factor, series } = grow(rate, periods, isEarly(type));
  return requireFinite(-(future + payment * series) / factor + 0);
}

function findPayment(rate: number, periods: number, present: number, future: number, type: number): Scalar {
  const { factor, series } = grow(rate, periods, isEarly(type));
  return series === 0 ? errors.number : requireFinite(-(present * factor + future) / series + 0);
}

function countPeriods(rate: number, payment: number, present: number, future: number, type: number): Scalar {
  if (rate === 0) return payment === 0 ? errors.number : requireFinite(-(present + future) / payment);
  if (rate <= -1) return errors.number;
  const paid = payment * (1 + rate * isEarly(type));
  const ratio = (paid - future * rate) / (paid + present * rate);
  return ratio > 0 ? requireFinite(Math.log(ratio) / Math.log1p(rate)) : errors.number;
}

/** The interest in one payment, and the rest of it that repays. */
function splitPayment(
  part: "interest" | "principal",
  [rate, period, periods, present, future, type]: readonly [number, number, number, number, number, number],
): Scalar {
  if (period < 1 || period >= periods + 1) return errors.number;
  const payment = findPayment(rate, periods, present, future, type);
  if (typeof payment !== "number") return payment;
  // What is owed before the payment bears the interest, or holds that of the period before if payments come at the beginning.
  const before = findFutureValue(rate, period - 1, payment, present, type);
  if (typeof before !== "number") return before;
  const early = isEarly(type);
  const interest = early === 0 ? before * rate : period === 1 ? 0 : (before * rate) / (1 + rate);
  return requireFinite(part === "interest" ? interest : payment - interest);
}

/**
 * The root of a function that falls or rises throughout, between two places of different signs: halving kept safe, secants to be
 * quick. Undefined where the signs are the same.
 */
function findRoot(compute: (x: number) => number, low: number, high: number): number | undefined {
  let [a, b, fa, fb] = [low, high, compute(low), compute(high)];
  if (!(fa * fb <= 0)) return undefined;
  for (let turn = 0; turn < 400 && a !== b; turn += 1) {
    const secant = a - (fa * (b - a)) / (fb - fa);
    const isInside = secant > Math.min(a, b) && secant < Math.max(a, b);
    const x = turn % 3 === 2 || !isInside ? (a + b) / 2 : secant;
    const fx = compute(x);
    if (fx === 0 || x === a || x === b) return x;
    if (fa * fx < 0) [b, fb] = [x, fx];
    else [a, fa] = [x, fx];
  }
  return (a + b) / 2;
}

/** The rates between which an answer is looked for; Excel gives up somewhere on the way to others. */
const [lowestRate, highestRate] = [-0.9, 10];

/** Excel stops within 1E-7 of the root; the cell is compared no more closely. */
function noteIterated(caller: Caller): void {
  const { current } = caller.grid.notes;
  if (current) current.tolerance = Math.max(current.tolerance, 1e-7);
}

function findRate(compute: (rate: number) => number, caller: Caller): Scalar {
  noteIterated(caller);
  return findRoot(compute, lowestRate, highestRate) ?? refuse(`${caller.name} of less than −90 % or more than 1 000 %`);
}

/** Money that changes its direction once has one rate of return; of several Excel finds the one nearest to a guess. */
function countTurns(flows: readonly number[]): number {
  const signs = flows.filter((flow) => flow !== 0).map(Math.sign);
  return signs.filter((sign, place) => place > 0 && sign !== signs[place - 1]).length;
}

function discount(rate: number, flows: readonly number[], times: readonly number[]): number {
  return flows.reduce((total, flow, place) => total + flow / Math.pow(1 + rate, times[place] ?? 0), 0);
}

/** Values and dates of XNPV and XIRR: as many of either, no date before the first. Times in years of 365 days. */
function readDatedFlows(
  given: Value,
  dates: Value,
  caller: Caller,
): { readonly flows: number[]; readonly times: number[] } | ErrorValue {
  const lists = [given, dates].map((value) => readMatrix(value, caller));
  for (const list of lists) if (isError(list)) return list;
  const [flows, days] = lists.map((list) => (list as Matrix).values) as [readonly Scalar[], readonly Scalar[]];
  const wrong = [...flows, ...days].find((value) => isError(value));
  if (wrong !== undefined && isError(wrong)) return wrong;
  if (flows.length !== days.length) return errors.number;
  if ([...flows, ...days].some((value) => typeof value !== "number"))
    return refuse(`${caller.name} of values or dates that are no numbers`);
  const serials = (days as readonly number[]).map(Math.floor);
  const { date1904 } = caller.grid.book;
  if (serials.some((serial) => dateFromSerial(serial, date1904) === undefined)) return errors.number;
  const [first = 0] = serials;
  if (serials.some((serial) => serial < first)) return errors.number;
  return { flows: [...(flows as readonly number[])], times: serials.map((serial) => (serial - first) / 365) };
}

function findInternalRate(flows: readonly number[], times: readonly number[], caller: Caller): Scalar {
  if (!flows.some((flow) => flow > 0) || !flows.some((flow) => flow < 0)) return errors.number;
  const byTime = flows.map((_, place) => place).sort((a, b) => (times[a] ?? 0) - (times[b] ?? 0));
  if (countTurns(byTime.map((place) => flows[place] ?? 0)) > 1)
    return refuse(`${caller.name} of money that changes its direction more than once`);
  return findRate((rate) => discount(rate, flows, times), caller);
}

const annuity = ["number", "number", "number", "number?", "number?"] as const;
const ofPeriod = ["number", "number", "number", "number", "number?", "number?"] as const;

/** Loans, savings and returns. The equation and its signs are those that Microsoft describes with PV. */
export const finance: FunctionTable = {
  FV: takes(annuity, ([rate, periods, payment, present = 0, type = 0]) =>
    rate === -1 && periods < 0 ? errors.division : findFutureValue(rate, periods, payment, present, type),
  ),
  PV: takes(annuity, ([rate, periods, payment, future = 0, type = 0]) =>
    findPresentValue(rate, periods, payment, future, type),
  ),
  PMT: takes(annuity, ([rate, periods, present, future = 0, type = 0]) =>
    findPayment(rate, periods, present, future, type),
  ),
  NPER: takes(annuity, ([rate, payment, present, future = 0, type = 0]) =>
    countPeriods(rate, payment, present, future, type),
  ),
  IPMT: takes(ofPeriod, ([rate, period, periods, present, future = 0, type = 0]) =>
    splitPayment("interest", [rate, period, periods, present, future, type]),
  ),
  PPMT: takes(ofPeriod, ([rate, period, periods, present, future = 0, type = 0]) =>
    splitPayment("principal", [rate, period, periods, present, future, type]),
  ),
  RATE: takes(
    ["number", "number", "number", "number?", "number?", "number?"],
    ([periods, payment, present, future = 0, type = 0], caller) => {
      if (!(periods > 0)) return errors.number;
      const early = isEarly(type);
      const turns = countTurns([present + payment * early, payment, future + payment * (1 - early)]);
      if (turns !== 1) return refuse("RATE of money that changes its direction more than once, or never");
      return findRate((rate) => {
        const { factor, series } = grow(rate, periods, early);
        return (present * factor + payment * series + future) / Math.max(1, factor);
      }, caller);
    },
  ),
  NPV: takesMany(["number"], ["values"], 2, ([rate], given, caller) => {
    if (rate === -1) return errors.division;
    if (given.some((value) => value instanceof Omitted)) return refuse("NPV with an empty place");
    const flows = collectNumbers(given, caller);
    return isError(flows)
      ? flows
      : requireFinite(
          discount(
            rate,
            flows,
            flows.map((_, place) => place + 1),
          ),
        );
  }),
  IRR: takes(["values", "number?"], ([given], caller) => {
    const flows = collectNumbers([given], caller);
    return isError(flows)
      ? flows
      : findInternalRate(
          flows,
          flows.map((_, place) => place),
          caller,
        );
  }),
  XNPV: takes(["number", "values", "values"], ([rate, given, dates], caller) => {
    const dated = readDatedFlows(given, dates, caller);
    if (isError(dated)) return dated;
    if (!(rate > 0)) return refuse("XNPV at a rate that is not positive");
    return requireFinite(discount(rate, dated.flows, dated.times));
  }),
  XIRR: takes(["values", "values", "number?"], ([given, dates], caller) => {
    const dated = readDatedFlows(given, dates, caller);
    if (isError(dated)) return dated;
    const rate = findInternalRate(dated.flows, dated.times, caller);
    return typeof rate === "number" && rate < 0 ? refuse("a negative XIRR, which Excel does not always find") : rate;
  }),
  SLN: takes(["number", "number", "number"], ([cost, rest, life]) =>
    life === 0 ? errors.division : requireFinite((cost - rest) / life),
  ),
  SYD: takes(["number", "number", "number", "number"], ([cost, rest, life, period]) =>
    life > 0 && period >= 1 && period <= life
      ? requireFinite(((cost - rest) * (life - period + 1) * 2) / (life * (life + 1)))
      : errors.number,
  ),
  EFFECT: takes(["number", "number"], ([nominal, count]) => {
    const periods = toInteger(count);
    return nominal > 0 && periods >= 1
      ? requireFinite(Math.expm1(periods * Math.log1p(nominal / periods)))
      : errors.number;
  }),
  NOMINAL: takes(["number", "number"], ([effective, count]) => {
    const periods = toInteger(count);
    return effective > 0 && periods >= 1
      ? requireFinite(periods * Math.expm1(Math.log1p(effective) / periods))
      : errors.number;
  }),
};
