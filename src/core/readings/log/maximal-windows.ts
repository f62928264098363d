import { Bounds } from "./bounds";
import type { Clock, Stretch } from "./log";
import { medianAt, reach } from "./running-median";

/** How far back from a row the medians stay within the range, and their bounds from there to that row: the row's own come first. */
interface LookBack {
  readonly from: number;
  readonly bounds: readonly Bounds[];
}

/** Looks back at the medians from a row, not beyond the limit. */
function lookBack(values: Float64Array, stretch: Stretch, range: number, row: number, limit: number): LookBack {
  const bounds: Bounds[] = [];
  const medians = new Bounds();
  let from = row + 1;
  for (; from > limit; from--) {
    medians.add(medianAt(values, stretch, from - 1));
    if (medians.span > range) break;
    bounds.push(new Bounds(medians));
  }
  return { from, bounds };
}

/**
 * Passes the rows whose readings stay within the range together with what the window holds, to which they are added; gives the first row that needs its
 * median, or the row after the stretch.
 */
function passCalm(values: Float64Array, { first, last }: Stretch, range: number, window: Bounds, next: number): number {
  const end = next + reach;
  const readings = Bounds.of(values, Math.max(first, next - reach), Math.min(last, end - 1));
  readings.addAll(window);
  if (readings.span > range) return next;
  for (let index = end; index <= last; index++) {
    const value = values[index]!;
    if (readings.spanWith(value) > range) {
      window.addAll(readings);
      return index - reach;
    }
    readings.add(value);
  }
  return last + 1;
}

/**
 * The windows of one stretch in which max − min of the running medians is within the range and that no row can be added to, if they last long enough; starts
 * and ends both rise. One pass. A median never exceeds the readings that it looks at: where these stay within the range none is needed, and a calm log costs
 * little more than reading it. Else each row is looked back at no more than twice, so a slow ramp stays cheap too.
 */
export function maximalWindows(
  values: Float64Array,
  clock: Clock,
  stretch: Stretch,
  range: number,
  shortest: number,
): Stretch[] {
  const { first, last } = stretch;
  const windows: Stretch[] = [];
  let start = first;
  let seen = first - 1;
  // Bounds of the window's medians, in two parts: from each row to `turn`, written down when the turn was made, and from there to `seen`.
  let turn = seen;
  let written: readonly Bounds[] = [];
  let sinceTurn = new Bounds();
  const boundsSeen = () => new Bounds(sinceTurn, written[turn - start]);
  // Of all the window's medians, those not seen included.
  let window = new Bounds();

  const turnAt = ({ from, bounds }: LookBack) => {
    start = from;
    turn = seen;
    written = bounds;
    sinceTurn = new Bounds();
  };
  const close = (end: number) => {
    const found = { first: start, last: end };
    if (clock.along(found) >= shortest) windows.push(found);
  };

  let row = first;
  while ((row = passCalm(values, stretch, range, window, row)) <= last) {
    const median = medianAt(values, stretch, row);
    if (window.spanWith(median) <= range) {
      window.add(median);
    } else {
      const unseen = seen + 1;
      seen = row;
      const steady = lookBack(values, stretch, range, row, unseen);
      if (steady.from > unseen) {
        close(row - 1);
        turnAt(steady);
      } else {
        sinceTurn.addAll(steady.bounds.at(-1)!);
        if (boundsSeen().span > range) {
          close(row - 1);
          while (start <= turn && boundsSeen().span > range) start++;
          if (start > turn) turnAt(lookBack(values, stretch, range, row, turn + 1));
        }
      }
      window = boundsSeen();
    }
    row++;
  }
  close(last);
  return windows;
}
