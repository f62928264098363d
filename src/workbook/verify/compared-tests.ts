import { type Place, placeKey } from "../book/area";
import type { Inspector } from "../book/inspector";
import { type EnteredReading, type EnteredRun, readResult, runsAcross } from "../book/tests/entered-runs";
import type { Review } from "./review";

/** A reading as compared between series: unsigned pressure, and the typed figures behind its flow. */
export interface MeasuredReading {
  readonly place: Place;
  readonly pressure: number;
  readonly flows: readonly number[];
}

/** The readings of a run in order. */
export function measureSeries(view: Inspector, run: EnteredRun): MeasuredReading[] {
  return run.readings.flatMap((reading): MeasuredReading[] => {
    const pressure = view.readNumber(reading.pressure);
    if (pressure === undefined) return [];
    return [{ place: reading.pressure, pressure: Math.abs(pressure), flows: listTypedFlows(view, reading, run) }];
  });
}

/** The typed figures behind a reading's flow: the flow itself, or the fan pressure in its row (its column, if readings run across). */
function listTypedFlows(view: Inspector, { flows }: EnteredReading, { pressures }: EnteredRun): number[] {
  const across = runsAcross(pressures);
  return flows.flatMap((flow): number[] => {
    const own = view.readNumber(flow);
    if (view.isTyped(flow)) return own === undefined ? [] : [own];
    return view.listPrecedents(flow).flatMap(({ sheet, top, left, bottom, right }) => {
      const isLine = across ? top === bottom : left === right;
      const isHere = across ? flow.column >= left && flow.column <= right : flow.row >= top && flow.row <= bottom;
      const beside: Place = across ? { sheet, row: top, column: flow.column } : { sheet, row: flow.row, column: left };
      const value = isLine && isHere && view.isTyped(beside) ? view.readNumber(beside) : undefined;
      return value === undefined ? [] : [value];
    });
  });
}

/** Whether the pressures of one run are computed from those of another. */
export function isComputedFrom(view: Inspector, run: EnteredRun, other: EnteredRun): boolean {
  const behind = view.findUpstream([run.pressures]);
  const own = new Set(run.readings.map(({ pressure }) => placeKey(pressure)));
  return other.readings.some(({ pressure }) => behind.has(placeKey(pressure)) && !own.has(placeKey(pressure)));
}

/** Whether two runs use the same typed pressures: one series evaluated twice. */
export function isOneSeries(view: Inspector, one: EnteredRun, other: EnteredRun): boolean {
  const sources = [one, other].map(({ pressures }) =>
    [...view.findUpstream([pressures]).values()].filter((place) => view.isTyped(place)).map(placeKey),
  );
  const [a = [], b = []] = sources;
  const ofA = new Set(a);
  return a.length > 0 && b.some((key) => ofA.has(key));
}

const mostDecimals = 4;

/** Every result for a symbol that a report may use: of a run, of a direction, the mean of the directions, the mean of all. */
export function listResults(review: Review, runs: readonly EnteredRun[], symbol: string): number[] {
  const listResultsOf = (chosen: readonly EnteredRun[]): number[] =>
    chosen.flatMap((run) => readResult(review, run, symbol) ?? []);
  const directions = (["depressurization", "pressurization"] as const).map((way) =>
    listResultsOf(runs.filter(({ direction }) => direction === way)),
  );
  const all = directions.flat();
  const means = directions.flatMap((values) => (values.length > 0 ? [computeMean(values)] : []));
  return all.length === 0 ? [] : [...all, ...means, computeMean(means), computeMean(all)];
}

const computeMean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** The distance of a figure from a known one, as a fraction of the latter. */
export const measureGap = (known: number, value: number): number => Math.abs(value / known - 1);

/** The same figure, possibly rounded as reports round. */
export function isSame(known: number, value: number): boolean {
  if (measureGap(known, value) <= 1e-9) return true;
  for (let decimals = 0; decimals <= mostDecimals; decimals++) {
    const isRounded = Math.abs(value * 10 ** decimals - Math.round(value * 10 ** decimals)) < 1e-9;
    if (isRounded && Math.abs(known - value) <= 0.5000001 * 10 ** -decimals) return true;
  }
  return false;
}
