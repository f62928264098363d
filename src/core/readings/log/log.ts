import { ensure, invalid, missing } from "../../errors";

/** Whether the flow device was covered or ran, as the log says. */
export const fanStates = ["zero flow", "fan running"] as const;

export type FanState = (typeof fanStates)[number];

/** A logger's rows without blank ones, one array per column. */
export interface Log {
  /** Strictly rising, in the unit below. */
  readonly times: Float64Array;
  /** Pressure differences, Pa. */
  readonly pressures: Float64Array;
  /** Fan pressures, Pa, or flows; NaN where the row has none. */
  readonly fan?: Float64Array | undefined;
  /** Index in `fanStates`, or 255 where the log does not say. */
  readonly states?: Uint8Array | undefined;
  /** Position of each row in the input, counted from 1; absent if no row was left out. */
  readonly rows?: Int32Array | undefined;
}

/** Units of a log's times: seconds, or a spreadsheet's days. */
export const timeUnits = ["seconds", "days"] as const;

export type TimeUnit = (typeof timeUnits)[number];

/** Rows of a log that belong together, from and up to and including. */
export interface Stretch {
  readonly first: number;
  readonly last: number;
}

/** Position of a row in the input. */
export function rowIn({ rows }: Log, index: number): number {
  return rows?.[index] ?? index + 1;
}

/** Ticks in a second. Whole ticks compare without rounding; a spreadsheet's day holds a time of our years to 0.6 µs. */
export const ticksPerSecond = 1e5;
const secondsPerDay = 86_400;
/** No logger writes more than 200 rows a second, none so slow as one an hour and more is read as a test. Between them the unit must be said. */
const [fastest, slowest] = [0.005, 0.05];

interface Intervals {
  readonly shortest: number;
  readonly longest: number;
}

function intervalsOf(log: Log): Intervals {
  const { times } = log;
  let [shortest, longest] = [Infinity, 0];
  for (let index = 1; index < times.length; index++) {
    const interval = times[index]! - times[index - 1]!;
    if (!(interval > 0)) {
      throw invalid("log", "timeNotRising", { time: times[index]! }, rowIn(log, index));
    }
    if (interval < shortest) shortest = interval;
    if (interval > longest) longest = interval;
  }
  return { shortest, longest };
}

/** Median interval; where all are alike, without sorting them. */
function medianInterval(times: Float64Array): number {
  const intervals = new Float64Array(times.length - 1);
  for (let index = 0; index < intervals.length; index++) intervals[index] = times[index + 1]! - times[index]!;
  intervals.sort();
  const middle = intervals.length >> 1;
  return intervals.length % 2 === 1 ? intervals[middle]! : (intervals[middle - 1]! + intervals[middle]!) / 2;
}

// Looked up once, not for every row: not every host makes that cheap.
const { round } = Math;

/** Times of a log in whole ticks from its first row. Computed where asked: an array of them would cost more than the rounding. */
export class Clock {
  readonly #times: Float64Array;
  readonly #start: number;
  readonly #ticksPerUnit: number;

  constructor(times: Float64Array, unit: TimeUnit) {
    this.#times = times;
    this.#start = times[0]!;
    this.#ticksPerUnit = ticksPerSecond * (unit === "days" ? secondsPerDay : 1);
  }

  at(index: number): number {
    return round((this.#times[index]! - this.#start) * this.#ticksPerUnit);
  }

  /** Ticks from the first row of a stretch to its last. */
  along({ first, last }: Stretch): number {
    return this.at(last) - this.at(first);
  }
}

/** The stretches of a log without a gap of more than five median intervals or a change of state. */
export interface Timing {
  readonly clock: Clock;
  readonly stretches: readonly Stretch[];
}

/**
 * Errors: fewer than two rows (missing); times that do not rise, naming the row; times that could be seconds as well as days, unless the unit is given.
 */
export function timingOf(log: Log, given: TimeUnit | undefined): Timing {
  const { times, states } = log;
  if (times.length < 2) {
    throw missing("log", "tooFew", { least: 2, of: "rows", count: times.length });
  }
  const { shortest, longest } = intervalsOf(log);
  const evenEnough = longest <= 5 * shortest;
  const median = evenEnough ? shortest : medianInterval(times);
  ensure(given !== undefined || !(median >= fastest && median <= slowest), "time unit", "timeUnitUnclear", {
    interval: median,
  });
  const clock = new Clock(times, given ?? (median < fastest ? "days" : "seconds"));
  const whole = { first: 0, last: times.length - 1 };
  if (evenEnough && states === undefined) return { clock, stretches: [whole] };
  const gap = 5 * median;
  const stretches: Stretch[] = [];
  let first = 0;
  for (let index = 1; index < times.length; index++) {
    if (times[index]! - times[index - 1]! > gap || (states !== undefined && states[index] !== states[index - 1])) {
      stretches.push({ first, last: index - 1 });
      first = index;
    }
  }
  stretches.push({ first, last: whole.last });
  return { clock, stretches };
}
