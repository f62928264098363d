import type { FlowCalibration } from "../fan-flow";
import { fanStates, type Clock, type FanState, type Log, type Stretch } from "./log";
import { stationStatistics, type StationStatistics } from "./station-statistics";

/** How the fan column of a log is to be read. */
export interface FanTerms {
  /** What turns fan pressures into flow; absent where the column holds flows. */
  readonly calibration?: FlowCalibration | undefined;
  /** Fan pressure, or flow, up to which the mean of a station counts as zero flow. */
  readonly zeroFlowBelow: number;
}

export interface StationFlow {
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

/** The state that the log gives; else the fan column tells it, unless a row of it is blank. */
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
export function stationFlow(
  log: Log,
  clock: Clock,
  station: Stretch,
  terms: FanTerms,
  flows: Float64Array,
): StationFlow {
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
