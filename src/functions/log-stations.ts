import {
  fanStates,
  logStations as stationsOf,
  MethodError,
  type FlowCalibration,
  type Log,
  type LogTerms,
  type Station,
} from "../core/index";
import { numberIn, oneOf, rowsOf } from "./cells";
import { finiteRow, type CellResult } from "./finite";
import { inCell } from "./host-error";
import { settingsIn, type Settings } from "./settings";
import { headed } from "./spread";

const columnWords = ["time", "pressure", "fan pressure", "flow", "state", "other"] as const;

type ColumnWord = (typeof columnWords)[number];

/** Where each column stands; −1 where the log has none. */
interface Places {
  readonly width: number;
  readonly time: number;
  readonly pressure: number;
  readonly fan: number;
  readonly isFlow: boolean;
  readonly state: number;
}

function invalid(rule: string): MethodError {
  return new MethodError("invalid", "settings", rule);
}

/** The columns as the setting lists them; two columns are time and pressure, more are never guessed. */
function placesIn({ columns }: Settings, width: number): Places {
  if (columns === undefined && width !== 2) {
    throw invalid(`the log has ${width} columns: say what they are under "columns", as "time, pressure, fan pressure"`);
  }
  const listed = (columns ?? "time, pressure")
    .split(/[,;]/)
    .map((word) => word.trim().toLowerCase().replace(/\s+/g, " "));
  const words = listed as ColumnWord[];
  for (const word of words) {
    if (!columnWords.includes(word)) throw invalid(`columns: "${word}" is not one of: ${columnWords.join(", ")}`);
    if (word !== "other" && words.indexOf(word) !== words.lastIndexOf(word)) {
      throw invalid(`columns: "${word}" stands twice`);
    }
  }
  if (words.length !== width) throw invalid(`columns: ${words.length} are listed, the log has ${width}`);
  const place = (word: ColumnWord) => words.indexOf(word);
  const [fanPressure, flow] = [place("fan pressure"), place("flow")];
  if (place("time") < 0 || place("pressure") < 0) throw invalid("columns: time and pressure are needed");
  if (fanPressure >= 0 && flow >= 0)
    throw invalid('columns: fan pressure or flow, not both; call the other one "other"');
  return {
    width,
    time: place("time"),
    pressure: place("pressure"),
    fan: Math.max(fanPressure, flow),
    isFlow: flow >= 0,
    state: place("state"),
  };
}

const unknownState = 255;

/** Reads words that seldom change: the same cell as in the row before costs one comparison. */
function stateReader(): (cell: unknown, row: number) => number {
  let [latest, index]: [unknown, number] = [undefined, unknownState];
  return (cell, row) => {
    if (cell === latest) return index;
    const word = oneOf(cell, fanStates, "log", row);
    [latest, index] = [cell, word === undefined ? unknownState : fanStates.indexOf(word)];
    return index;
  };
}

/** One number of a row; NaN where the cell is blank. */
function numberAt(cell: unknown, row: number): number {
  return typeof cell === "number" && Number.isFinite(cell) ? cell : (numberIn(cell, "log", row) ?? NaN);
}

/** The log as arrays of numbers, blank rows left out: blank cells, or zeros all along a row that is not the first. */
function logIn(rows: unknown[][], places: Places): Log {
  const count = rows.length;
  const [times, pressures] = [new Float64Array(count), new Float64Array(count)];
  const fan = places.fan < 0 ? undefined : new Float64Array(count);
  const states = places.state < 0 ? undefined : new Uint8Array(count);
  const readState = stateReader();
  let kept = 0;
  let placesOfRows: Int32Array | undefined;
  for (let index = 0; index < count; index++) {
    const cells = rows[index]!;
    const row = index + 1;
    if (cells.length !== places.width) {
      throw new MethodError("invalid", "log", `${cells.length} cells, not ${places.width}`, row);
    }
    const time = numberAt(cells[places.time], row);
    const pressure = numberAt(cells[places.pressure], row);
    const fanValue = fan === undefined ? NaN : numberAt(cells[places.fan], row);
    const isBlankRow =
      (Number.isNaN(time) && Number.isNaN(pressure) && Number.isNaN(fanValue)) ||
      (time === 0 && pressure === 0 && !(Math.abs(fanValue) > 0) && kept > 0);
    if (isBlankRow) {
      placesOfRows ??= Int32Array.from({ length: count }, (_, place) => place + 1);
      continue;
    }
    if (Number.isNaN(time)) throw new MethodError("missing", "log", "a row without its time", row);
    if (Number.isNaN(pressure)) throw new MethodError("missing", "log", "a time without its pressure", row);
    times[kept] = time;
    pressures[kept] = pressure;
    if (fan !== undefined) fan[kept] = fanValue;
    if (states !== undefined) states[kept] = readState(cells[places.state], row);
    if (placesOfRows !== undefined) placesOfRows[kept] = row;
    kept++;
  }
  return {
    times: times.subarray(0, kept),
    pressures: pressures.subarray(0, kept),
    fan: fan?.subarray(0, kept),
    states: states?.subarray(0, kept),
    rows: placesOfRows,
  };
}

function calibrationIn(settings: Settings): FlowCalibration {
  const { "fan coefficient": coefficient, "fan exponent": exponent } = settings;
  if (coefficient === undefined || exponent === undefined) {
    throw new MethodError("missing", "settings", 'a log of fan pressures needs "fan coefficient" and "fan exponent"');
  }
  return { coefficient, exponent, lowest: settings["lowest fan pressure"], highest: settings["highest fan pressure"] };
}

function termsIn(settings: Settings, { fan, isFlow }: Places): LogTerms {
  return {
    tolerance: settings.tolerance,
    shortest: settings["shortest station"],
    timeUnit: settings["time unit"],
    resolution: settings["gauge resolution"],
    zeroFlowBelow: settings["zero flow below"],
    calibration: fan >= 0 && !isFlow ? calibrationIn(settings) : undefined,
  };
}

/** What the method calls the terms of a flow device, as the settings call them. */
const labelOf: Readonly<Record<string, string>> = {
  coefficients: "fan coefficient",
  exponents: "fan exponent",
  highest: "highest fan pressure",
};

function named(error: unknown): unknown {
  const label = error instanceof MethodError ? labelOf[error.argument] : undefined;
  return label === undefined ? error : invalid(`${label}: ${(error as MethodError).rule}`);
}

function stationsIn(log: Log, terms: LogTerms): Station[] {
  try {
    return stationsOf(log, terms);
  } catch (error) {
    throw named(error);
  }
}

const headings = [
  "start",
  "end",
  "duration s",
  "rows",
  "pressure",
  "standard deviation",
  "standard error",
  "degrees of freedom",
  "drift",
  "flow",
  "flow, standard deviation",
  "flow, standard error",
  "state",
  "look at",
  "first row",
  "last row",
];

function cellsOf({ start, end, duration, pressure, flow, state, notes, firstRow, lastRow }: Station): CellResult[] {
  return finiteRow([
    start,
    end,
    duration,
    pressure.count,
    pressure.mean,
    pressure.deviation,
    pressure.standardError,
    pressure.degreesOfFreedom,
    pressure.drift,
    flow?.mean ?? "",
    flow?.deviation ?? "",
    flow?.standardError ?? "",
    state ?? "",
    notes.join("; "),
    firstRow,
    lastRow,
  ]);
}

/**
 * Reduces the rows of a logger to stations, one row each: start, end, duration in s, number of rows, mean pressure, its standard deviation, standard error and
 * degrees of freedom (gusts counted: neighbouring rows are alike), drift, mean flow, its standard deviation and error, "zero flow" or "fan running", what to look at,
 * first and last row. A station is where the running median of five stays within twice the tolerance for long enough.
 * Excel on the web carries 5 MB a call, some 100 000 rows of two columns.
 * Equation: x̄ = Σ x/N; u(x̄) = s/√N_eff.
 * Source: the method's own; JCGM 100:2008 4.2 for the statistics.
 * @customfunction LOGSTATIONS
 * @param log One row a record: time (Excel's or seconds), pressure in Pa, perhaps fan pressure or flow, perhaps state ("zero flow", "fan running"). 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value: columns ("time, pressure, fan pressure, state"), time unit, tolerance (1.5 Pa), shortest station (15 s), gauge resolution, fan coefficient, fan exponent, lowest and highest fan pressure, zero flow below, headings.
 * @returns Sixteen columns.
 * @core readings/log/log-stations.ts
 * @check authorities/stations.test.ts
 */
export function logStations(log: any[][], settings?: any[][]): any[][] {
  return inCell(() => {
    const given = settingsIn(settings);
    const rows = rowsOf(log);
    const places = placesIn(given, rows[0]?.length ?? 0);
    const terms = termsIn(given, places);
    const stations = stationsIn(logIn(rows, places), terms);
    if (stations.length === 0) {
      const rule = "no stretch is steady for long enough; a wider tolerance or a shorter station may find one";
      throw new MethodError("missing", "log", rule);
    }
    const cells = stations.map(cellsOf);
    return headed(headings, cells, given.headings);
  });
}
