import {
  openingsInBudget,
  prepare,
  signOf,
  smallest,
  type Direction,
  type ModelReading,
  type PreparedTest,
  type ReadingNoise,
  type TestResult,
} from "../../core/index";
import { given } from "./assumptions";
import type { SheetReadings } from "../cells/pairs";
import { baselineTimesIn } from "../results/whole-test";
import { techniqueIn, testAirIn, type Settings } from "../settings/settings";
import { invalidSetting } from "../cells/refusals";

/** The opening of each reading by its row, from letters such as AAABBB; all A where none are given. */
function openingsIn(settings: Settings, rows: readonly number[]): Map<number, number> {
  const letters = (settings.openings ?? "").toUpperCase().replace(/[^A-Z]/g, "");
  const last = String.fromCharCode(64 + openingsInBudget);
  if (letters !== "" && letters.length !== rows.length) {
    throw invalidSetting("openings", "unlikeSize", { count: letters.length, others: rows.length, of: "readings" });
  }
  return new Map(
    rows.map((row, index) => {
      const opening = letters === "" ? 0 : letters.charCodeAt(index) - 65;
      if (opening >= openingsInBudget) throw invalidSetting("openings", "lettersTo", { last });
      return [row, opening];
    }),
  );
}

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Fan pressure at the lowest flow of each opening that is in use, by its number; empty where none is given. One value is that of the only opening in use, or of all alike.
 * Errors: several values, but not one for each opening up to the last in use.
 */
function lowestFanPressures(settings: Settings, openingsInUse: readonly number[]): Map<number, number> {
  const { "fan pressure at lowest flow": values } = settings;
  if (values === undefined) return new Map();
  const last = Math.max(...openingsInUse);
  if (values.length > 1 && values.length <= last) {
    throw invalidSetting("fan pressure at lowest flow", "unlikeSize", {
      count: values.length,
      others: last + 1,
      of: "openings",
    });
  }
  return new Map(openingsInUse.map((opening) => [opening, values.length === 1 ? values[0]! : values[opening]!]));
}

/**
 * The test as the model of uncertainty sees it. The sheet has flows, not fan pressures: the fan pressures follow from q = c·f^m where the one at the lowest flow of each
 * opening is given. Readings without times are taken as evenly spaced between the baselines, in their order; a calibration turns about the middle of the readings unless its pivot is given.
 */
export function budgetTest(
  direction: Direction,
  result: TestResult,
  { used, excluded }: SheetReadings,
  settings: Settings,
  noise: ReadingNoise,
): PreparedTest {
  const exponent = given(settings, "fan exponent");
  const { "pivot fan pressure": pivot } = settings;
  const rows = [...used, ...excluded].map(({ row }) => row).sort((one, other) => one - other);
  const openings = openingsIn(settings, rows);
  const order = new Map(rows.map((row, index) => [row, (index + 0.5) / rows.length]));
  const logFlows = new Map<number, number[]>();
  for (const { row, flow } of result.points) {
    const opening = openings.get(row)!;
    const logs = logFlows.get(opening) ?? [];
    logs.push(Math.log(flow));
    logFlows.set(opening, logs);
  }
  const spans = new Map(
    [...logFlows].map(([opening, logs]) => [opening, { middle: meanOf(logs), lowest: smallest(logs) }]),
  );
  const lowestFans = lowestFanPressures(settings, [...spans.keys()]);
  const side = signOf(direction);
  const { before, after } = result.baseline;
  const times = baselineTimesIn(settings, used, after === undefined ? undefined : [after]);
  const readings = result.points.map((point, index): ModelReading => {
    const opening = openings.get(point.row)!;
    const { middle, lowest } = spans.get(opening)!;
    const log = Math.log(point.flow);
    const lowestFan = lowestFans.get(opening);
    const fanPressure = lowestFan && lowestFan * Math.exp((log - lowest) / exponent);
    const logOverPivot =
      fanPressure === undefined || pivot === undefined ? (log - middle) / exponent : Math.log(fanPressure / pivot);
    return {
      ...point,
      pressure: side * point.pressure + result.zeros[index]!,
      fan: { opening, exponent, logOverPivot, pressure: fanPressure },
      time: times ? (point.time! - times.before) / (times.after - times.before) : order.get(point.row)!,
    };
  });
  return prepare({
    direction,
    readings,
    baselineBefore: before,
    baselineAfter: after,
    air: testAirIn(settings),
    standard: settings.standard,
    technique: techniqueIn(settings),
    zeroFollowsTime: times !== undefined,
    noise,
  });
}
