import { logStations as stationsOf, type FlowCalibration, type LogTerms, type Station } from "../../core/index";
import { rowsOf } from "../cells/cells";
import { type CellResult, inCell } from "../cells/host-error";
import { headed, requireCarried } from "../cells/spread";
import { placesIn, type Places } from "./log/columns";
import { logIn } from "./log/rows";
import { nameSettings, settingsIn, type Settings } from "../settings/settings";
import { missing } from "../cells/rule-codes";

function calibrationIn(settings: Settings): FlowCalibration {
  const { "fan coefficient": coefficient, "fan exponent": exponent } = settings;
  if (coefficient === undefined || exponent === undefined) {
    throw missing("settings", "calibrationNeeded");
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

/** What the settings call the terms of a flow device. */
const labelOf = {
  coefficients: "fan coefficient",
  exponents: "fan exponent",
  highest: "highest fan pressure",
} as const;

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
  return [
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
  ];
}

/**
 * Reduces the rows of a logger to stations of steady pressure, one row per station. Sixteen columns: start, end,
 * duration in s, number of rows, mean pressure, its standard deviation, standard error and degrees of freedom (allowing
 * for gusts, which make neighbouring rows alike), drift, mean flow, its standard deviation and error, "zero flow" or
 * "fan running", what to check, first and last row. A station is where the running median of five stays within twice
 * the tolerance for long enough. Excel on the web transfers 5 MB per call, some 100 000 rows of two columns.
 * Equation: x̄ = Σ x/N; u(x̄) = s/√N_eff.
 * Source: the method's own; JCGM 100:2008 4.2 for the statistics.
 * @customfunction LOGSTATIONS
 * @param log One row per record: time (Excel's or seconds), pressure in Pa, optionally fan pressure or flow, optionally state ("zero flow", "fan running"). 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value: columns ("time, pressure, fan pressure, state"), time unit, tolerance (1.5 Pa), shortest station (15 s), gauge resolution, fan coefficient and exponent, lowest and highest fan pressure, zero flow below, headings.
 * @returns Sixteen columns.
 * @core readings/log/stations.ts
 * @check authorities/stations.test.ts
 */
export function logStations(log: any[][], settings?: any[][]): any[][] {
  return inCell(() => {
    const given = settingsIn(settings);
    const rows = rowsOf(log);
    const places = placesIn(given, rows[0]?.length ?? 0);
    const terms = termsIn(given, places);
    const stations = nameSettings(() => stationsOf(logIn(rows, places), terms), [], labelOf);
    if (stations.length === 0) {
      throw missing("log", "noStation");
    }
    requireCarried(stations.length * headings.length, "log", "stationsBeyondExcel");
    const cells = stations.map(cellsOf);
    return headed(headings, cells, given.headings);
  });
}
