import { ensure, requirePositive } from "../../errors";
import { fanFlow, type FlowCalibration } from "../fan-flow";
import { Bounds } from "./bounds";
import {
  rowIn,
  ticksPerSecond,
  timingOf,
  type Clock,
  type FanState,
  type Log,
  type Stretch,
  type TimeUnit,
} from "./log";
import { maximalWindows } from "./maximal-windows";
import { acceptedWindows } from "./quiet-windows";
import { medianAt, reach } from "./running-median";
import { stationFlow } from "./station-flow";
import { stationStatistics, type StationStatistics } from "./station-statistics";

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
 * Errors: too few rows (missing); times that do not rise; terms that are not above 0; a unit of time that cannot be told.
 * Source: the method's own; JCGM 100:2008 4.2 for the statistics.
 */
export function logStations(log: Log, terms: LogTerms = {}): Station[] {
  const { tolerance = 1.5, shortest = 15, resolution, calibration, timeUnit } = terms;
  requirePositive(tolerance, "tolerance");
  requirePositive(shortest, "shortest station");
  const { zeroFlowBelow = calibration === undefined ? 0 : calmFanPressure } = terms;
  ensure(zeroFlowBelow >= 0, "zero flow below", "must be 0 or more");
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
