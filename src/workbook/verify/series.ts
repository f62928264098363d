import { placeKey, type SheetArea, type Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import { upstream } from "./chain";
import type { ReviewedReading, WholeTest } from "./whole-tests";

/** A reading as its series is compared: pressure without its sign, and the typed figures behind its flow. */
export interface MeasuredReading {
  readonly place: Place;
  readonly pressure: number;
  readonly flows: readonly number[];
}

/** Whether readings stand beside each other, not below each other. */
export const runsAcross = ({ top, bottom, left, right }: SheetArea): boolean => top === bottom && right > left;

/** The readings of a test in their order. */
export function seriesOf(view: Inspector, test: WholeTest): MeasuredReading[] {
  return test.readings.flatMap((reading): MeasuredReading[] => {
    const pressure = view.number(reading.pressure);
    if (pressure === undefined) return [];
    return [{ place: reading.pressure, pressure: Math.abs(pressure), flows: typedFlows(view, reading, test) }];
  });
}

/** The typed figures that a reading's flow comes from: the flow itself, or the fan pressure in its row (its column, where readings run across). */
function typedFlows(view: Inspector, { flows }: ReviewedReading, { pressures }: WholeTest): number[] {
  const across = runsAcross(pressures);
  return flows.flatMap((flow): number[] => {
    const own = view.number(flow);
    if (view.isTyped(flow)) return own === undefined ? [] : [own];
    return view.precedents(flow).flatMap(({ sheet, top, left, bottom, right }) => {
      const isLine = across ? top === bottom : left === right;
      const isHere = across ? flow.column >= left && flow.column <= right : flow.row >= top && flow.row <= bottom;
      const beside: Place = across ? { sheet, row: top, column: flow.column } : { sheet, row: flow.row, column: left };
      const value = isLine && isHere && view.isTyped(beside) ? view.number(beside) : undefined;
      return value === undefined ? [] : [value];
    });
  });
}

/** Whether the pressures of one test are computed from those of another. */
export function isComputedFrom(view: Inspector, test: WholeTest, other: WholeTest): boolean {
  const behind = upstream(view, [test.pressures]);
  const own = new Set(test.readings.map(({ pressure }) => placeKey(pressure)));
  return other.readings.some(({ pressure }) => behind.has(placeKey(pressure)) && !own.has(placeKey(pressure)));
}

/** Whether two tests rest on the same typed pressures: one series, evaluated twice. */
export function isOneSeries(view: Inspector, one: WholeTest, other: WholeTest): boolean {
  const sources = [one, other].map(({ pressures }) =>
    [...upstream(view, [pressures]).values()].filter((place) => view.isTyped(place)).map(placeKey),
  );
  const [a = [], b = []] = sources;
  const ofA = new Set(a);
  return a.length > 0 && b.some((key) => ofA.has(key));
}
