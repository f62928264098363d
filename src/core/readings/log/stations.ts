import { ensure, requirePositive } from "../../errors";
import {
  autocorrelation,
  batches,
  effectiveCount as independentRows,
  rowsForBatches,
  standardErrorByBatches,
  standardErrorOfMean,
} from "../../statistics/autocorrelation";
import { fanFlow, type FlowCalibration } from "../fan-flow";
import {
  type Clock,
  type FanState,
  fanStates,
  type Log,
  rowIn,
  type Stretch,
  ticksPerSecond,
  type TimeUnit,
  timingOf,
} from "./log";
import { acceptedWindows, Bounds, maximalWindows, medianAt, reach } from "./windows";

/** How stations are found in a log. */
export interface LogTerms {
  /** Half the range within which the pressure of a station stays, Pa. */
  readonly tolerance?: number | undefined;
  /** Shortest station, s. */
  readonly shortest?: number | undefined;
  /** Unit of the times; recognised from the interval where not given. */
  readonly timeUnit?: TimeUnit | undefined;
  /** Resolution of the pressure gauge, Pa; used where all rows of a station show the same. */
  readonly resolution?: number | undefined;
  /** What turns the fan column into flow; absent where the column holds flows. */
  readonly calibration?: FlowCalibration | undefined;
  /** Fan pressure, Pa, or flow, up to which the mean of a station counts as zero flow. */
  readonly zeroFlowBelow?: number | undefined;
}

/** One steady stretch of a test. */
export interface Station {
  /** In the unit of the log. */
  readonly start: number;
  readonly end: number;
  /** s */
  readonly duration: number;
  readonly pressure: StationStatistics;
  /** Flow, row by row from the fan pressure where that was logged; absent where it cannot be known. */
  readonly flow?: StationStatistics;
  readonly state?: FanState;
  /** What a tester should look at. */
  readonly notes: readonly string[];
  readonly firstRow: number;
  readonly lastRow: number;
}

/** Two readings that differ by the whole range as printed are not to differ by more in their binary form. */
const printSlack = 1e-9;
const fewestEffectiveRows = 4;
/** Fan pressure of a covered device at rest, Pa: common practice, no source. */
const calmFanPressure = 1;

/** Whether a row is farther from the running median than the range; no row is where all rows that its medians look at lie within it (those beside a station belong to its window), and then no median is needed. */
function hasSpike(pressures: Float64Array, stretch: Stretch, { first, last }: Stretch, range: number): boolean {
  if (Bounds.of(pressures, first - reach, last + reach).span <= range) return false;
  for (let index = first; index <= last; index++) {
    if (Math.abs(pressures[index]! - medianAt(pressures, stretch, index)) > range) return true;
  }
  return false;
}

/** Pressure of a station; rows that all show the same have the gauge's resolution for their scatter, where it is known. */
function stationPressure(log: Log, clock: Clock, found: Stretch, resolution = 0): StationStatistics {
  const measured = stationStatistics(log.pressures, clock, found);
  return measured.deviation === 0 ? { ...measured, standardError: resolution / Math.sqrt(12) } : measured;
}

function notesOn({ drift, effectiveCount, deviation }: StationStatistics, tolerance: number): string[] {
  const notes: string[] = [];
  if (Math.abs(drift) > tolerance) notes.push("drifts");
  if (effectiveCount < fewestEffectiveRows) notes.push("too short");
  if (deviation === 0) notes.push("constant: scatter below the gauge's resolution");
  return notes;
}

/**
 * Reduces a log to stations: stretches in which the running median of five stays within 2 × tolerance and that last long enough, two rows dropped at each
 * end. Gaps of more than five median intervals and changes of state end a stretch. Work and memory grow in proportion to the rows, but for a sort of
 * the intervals where they differ.
 * Errors: too few rows (missing); times that do not rise; terms that are not above 0; a time unit that cannot be determined.
 * Source: the method's own; JCGM 100:2008 4.2 for the statistics.
 */
export function logStations(log: Log, terms: LogTerms = {}): Station[] {
  const { tolerance = 1.5, shortest = 15, resolution, calibration, timeUnit } = terms;
  requirePositive(tolerance, "tolerance");
  requirePositive(shortest, "shortest station");
  const { zeroFlowBelow = calibration === undefined ? 0 : calmFanPressure } = terms;
  ensure(zeroFlowBelow >= 0, "zero flow below", "zeroOrMore");
  // The calibration is judged once by what one reading of it would give; the rows then only need the formula.
  if (calibration !== undefined) fanFlow(calibration.lowest ?? calibration.highest ?? 1, calibration);
  const fanTerms = { zeroFlowBelow, calibration };
  const { times, pressures, fan } = log;
  const { clock, stretches } = timingOf(log, timeUnit);
  const flows = new Float64Array(fan === undefined ? 0 : times.length);
  const fewestTicks = shortest * ticksPerSecond;
  const range = 2 * tolerance + printSlack;
  const stations: Station[] = [];
  for (const stretch of stretches) {
    if (clock.along(stretch) < fewestTicks) continue;
    const windows = maximalWindows(pressures, clock, stretch, range, fewestTicks);
    for (const found of acceptedWindows(stretch, windows, clock, fewestTicks)) {
      const { first, last } = found;
      const pressure = stationPressure(log, clock, found, resolution);
      const { note, ...flowAndState } = stationFlow(log, clock, found, fanTerms, flows);
      const notes = notesOn(pressure, tolerance);
      if (hasSpike(pressures, stretch, found, range)) notes.push("single rows far off");
      if (note !== undefined) notes.push(note);
      stations.push({
        start: times[first]!,
        end: times[last]!,
        duration: clock.along(found) / ticksPerSecond,
        pressure,
        ...flowAndState,
        notes,
        firstRow: rowIn(log, first),
        lastRow: rowIn(log, last),
      });
    }
  }
  return stations;
}

/** What the rows of a station say about its mean, correlation between neighbours included. */
interface StationStatistics {
  readonly count: number;
  readonly mean: number;
  /** Standard deviation of the rows. */
  readonly deviation: number;
  /** Standard error of the mean, and its degrees of freedom. */
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  /** Slope × duration, in the unit of the values. */
  readonly drift: number;
  /** Correlation of neighbouring rows, and how many independent rows the station is worth. */
  readonly correlation: number;
  readonly effectiveCount: number;
}

/**
 * Mean, deviation and standard error of the rows of a station. Gusts last longer than a row, so neighbours are alike and n rows say less than n independent
 * ones: r1 = Σd_i·d_{i+1}/Σd², corrected for the short series, gives the effective count m(1 − φ)/(1 + φ); from 30 rows on six batches are tried too,
 * and the larger standard error counts.
 * @param values A column of the log; its numbers between `first` and `last` are used.
 * @param clock Times of the rows.
 * Source: JCGM 100:2008 4.2 for the mean; first-order autoregression as in G. E. P. Box, G. M. Jenkins, G. C. Reinsel, "Time Series Analysis"; batch means as
 * in A. M. Law, "Simulation Modeling and Analysis" (both from memory). The coverage was simulated.
 */
function stationStatistics(values: Float64Array, clock: Clock, stretch: Stretch): StationStatistics {
  const { first, last } = stretch;
  const count = last - first + 1;
  const value0 = values[first]!;
  let sum = 0;
  for (let index = first; index <= last; index++) sum += values[index]! - value0;
  const mean = value0 + sum / count;
  // Times from the middle of the station: their mean is near 0, so one pass over them loses no digits.
  const middle = (clock.at(first) + clock.at(last)) / 2;
  let times = 0;
  let timeSquares = 0;
  let squares = 0;
  let products = 0;
  let slopeSum = 0;
  let previous = 0;
  for (let index = first; index <= last; index++) {
    const d = values[index]! - mean;
    const t = clock.at(index) - middle;
    times += t;
    timeSquares += t * t;
    squares += d * d;
    products += d * previous;
    slopeSum += d * t;
    previous = d;
  }
  const meanTime = times / count;
  const drift = (slopeSum / (timeSquares - times * meanTime)) * clock.along(stretch);
  const deviation = Math.sqrt(squares / (count - 1));
  let standardError = 0;
  let degreesOfFreedom = count - 1;
  let correlation = 0;
  let effectiveCount = count;
  if (squares > 0) {
    correlation = products / squares;
    effectiveCount = independentRows(count, autocorrelation(correlation, count));
    standardError = standardErrorOfMean(squares, count, effectiveCount);
    degreesOfFreedom = effectiveCount - 1;
    const byBatches = count >= rowsForBatches ? standardErrorByBatches(values, first, last, mean) : 0;
    if (byBatches > standardError) {
      standardError = byBatches;
      degreesOfFreedom = batches - 1;
    }
  }
  return { count, mean, deviation, standardError, degreesOfFreedom, drift, correlation, effectiveCount };
}

/** How the fan column of a log is to be read. */
interface FanTerms {
  /** What turns fan pressures into flow; absent where the column holds flows. */
  readonly calibration?: FlowCalibration | undefined;
  /** Fan pressure, or flow, up to which the mean of a station counts as zero flow. */
  readonly zeroFlowBelow: number;
}

interface StationFlow {
  readonly state?: FanState;
  /** Absent where it cannot be known; `note` says why. */
  readonly flow?: StationStatistics;
  readonly note?: string;
}

const noFlow = {
  mean: 0,
  deviation: 0,
  standardError: 0,
  degreesOfFreedom: 0,
  drift: 0,
  correlation: 0,
  effectiveCount: 0,
};

function meanOf(values: Float64Array, { first, last }: Stretch): number {
  let sum = 0;
  for (let index = first; index <= last; index++) sum += values[index]!;
  return sum / (last - first + 1);
}

/** The state that the log gives; else it follows from the fan column, unless a row of that is blank. */
function stateOf({ states, fan }: Log, station: Stretch, { zeroFlowBelow }: FanTerms): FanState | undefined {
  const given = fanStates[states?.[station.first] ?? 255];
  if (given !== undefined || fan === undefined) return given;
  const mean = Math.abs(meanOf(fan, station));
  if (Number.isNaN(mean)) return undefined;
  return mean <= zeroFlowBelow ? "zero flow" : "fan running";
}

/**
 * Flow of a station: fan pressures are turned into flows row by row, then averaged. A row that has none, a 0 while the fan runs, and a fan pressure
 * outside the calibrated range leave the station without flow, and the note says so.
 * @param flows Room for the flows of the whole log.
 */
function stationFlow(log: Log, clock: Clock, station: Stretch, terms: FanTerms, flows: Float64Array): StationFlow {
  const { fan } = log;
  const { calibration } = terms;
  const state = stateOf(log, station, terms);
  const known = state === undefined ? {} : { state };
  if (fan === undefined) return known;
  const { first, last } = station;
  if (state === "zero flow" && calibration !== undefined) {
    return { ...known, flow: { ...noFlow, count: last - first + 1 } };
  }
  const lowest = calibration?.lowest ?? 0;
  const highest = calibration?.highest ?? Infinity;
  const coefficient = calibration?.coefficient ?? NaN;
  const exponent = calibration?.exponent ?? NaN;
  let absent = 0;
  let outside = 0;
  for (let index = first; index <= last; index++) {
    const value = fan[index]!;
    if (Number.isNaN(value) || (value === 0 && state === "fan running")) absent++;
    else if (calibration === undefined) flows[index] = value;
    else if (value < lowest || value > highest) outside++;
    else flows[index] = coefficient * Math.pow(value, exponent);
  }
  if (absent > 0) return { ...known, note: `no flow: rows without it: ${absent}` };
  if (outside > 0) return { ...known, note: `no flow: rows outside the calibrated range of the fan: ${outside}` };
  return { ...known, flow: stationStatistics(flows, clock, station) };
}
