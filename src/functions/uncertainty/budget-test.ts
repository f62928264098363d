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
import { given, ofOpenings } from "./assumptions";
import type { SheetReadings } from "../cells/pairs";
import { baselineTimesIn } from "../results/whole-test";
import { needed, techniqueIn, testAirIn, type Settings } from "../settings/settings";
import { invalidSetting } from "../cells/rule-codes";

/**
 * The openings that a text names, counted from 0: names of the list in any letter case, or letters for the places in it, such as AAABBB.
 * Errors: names without a list (missing); a name that the list has not, a text without a letter, more openings than the budget has rows for.
 */
function openingsNamed(given: readonly string[], settings: Settings): number[] {
  const lower = (name: string) => name.toLowerCase();
  const [only = ""] = given;
  const names = settings["opening names"]?.map(lower);
  const isOfLetters = given.length === 1 && names?.includes(lower(only)) !== true;
  const letters = only.toUpperCase().replace(/[^A-Z]/g, "");
  if (isOfLetters && letters === "") throw invalidSetting("openings", "letters");
  const places = isOfLetters
    ? Array.from(letters, (letter) => letter.charCodeAt(0) - 65)
    : given.map((name) => {
        const words = needed(settings, "opening names");
        const place = words.map(lower).indexOf(lower(name));
        if (place < 0) throw invalidSetting("openings", "notOneOf", { given: name, words });
        return place;
      });
  if (places.some((place) => place >= openingsInBudget))
    throw invalidSetting("openings", "lettersTo", { last: String.fromCharCode(64 + openingsInBudget) });
  return places;
}

/** The opening of each reading by its row; one name is that of all, and the first opening that of all where none is given. */
function openingsIn(settings: Settings, rows: readonly number[]): Map<number, number> {
  const { openings } = settings;
  const places = openings === undefined ? [0] : openingsNamed(openings, settings);
  if (places.length > 1 && places.length !== rows.length)
    throw invalidSetting("openings", "unlikeSize", { count: places.length, others: rows.length, of: "readings" });
  return new Map(rows.map((row, index) => [row, places[places.length === 1 ? 0 : index]!]));
}

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

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
  const inUse = [...spans.keys()];
  const lowestFanOf = ofOpenings(settings, "fan pressure at lowest flow", inUse);
  const pivotOf = ofOpenings(settings, "pivot fan pressure", inUse);
  const side = signOf(direction);
  const { before, after } = result.baseline;
  const times = baselineTimesIn(settings, used, after === undefined ? undefined : [after]);
  const readings = result.points.map((point, index): ModelReading => {
    const opening = openings.get(point.row)!;
    const { middle, lowest } = spans.get(opening)!;
    const log = Math.log(point.flow);
    const [lowestFan, pivot] = [lowestFanOf(opening), pivotOf(opening)];
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
