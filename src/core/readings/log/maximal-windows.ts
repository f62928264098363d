import type { Clock, Stretch } from "./log";
import { medianAt, reach } from "./running-median";

/** How far back from a row the medians stay within the range, and their extremes from there to that row: the row's own come first. */
interface LookBack {
  readonly from: number;
  readonly highs: number[];
  readonly lows: number[];
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
  // Extremes of the window's medians, in two parts: from each row to `turn`, written down when the turn was made, and as one pair from there to `seen`.
  let turn = first - 1;
  let written: LookBack = { from: first, highs: [], lows: [] };
  let [high, low] = [-Infinity, Infinity];
  let seen = first - 1;
  const highest = () => (start > turn ? high : Math.max(high, written.highs[turn - start]!));
  const lowest = () => (start > turn ? low : Math.min(low, written.lows[turn - start]!));
  // Bounds of all medians of the window, those not seen included.
  let [top, bottom] = [-Infinity, Infinity];

  /** Passes the rows whose readings stay within the range; gives the first that needs its median, or the row after the stretch. */
  const passCalm = (next: number): number => {
    let [above, below] = [top, bottom];
    for (let index = Math.max(first, next - reach); index < next + reach && index <= last; index++) {
      above = Math.max(above, values[index]!);
      below = Math.min(below, values[index]!);
    }
    if (above - below > range) return next;
    for (let index = next + reach; index <= last; index++) {
      const value = values[index]!;
      if (value <= above && value >= below) continue;
      if (Math.max(above, value) - Math.min(below, value) > range) {
        [top, bottom] = [above, below];
        return index - reach;
      }
      above = Math.max(above, value);
      below = Math.min(below, value);
    }
    return last + 1;
  };
  /** Looks back from the last row seen, not beyond the limit. */
  const lookBack = (limit: number): LookBack => {
    const [highs, lows]: [number[], number[]] = [[], []];
    let [above, below] = [-Infinity, Infinity];
    let from = seen + 1;
    while (from > limit) {
      const value = medianAt(values, stretch, from - 1);
      above = Math.max(above, value);
      below = Math.min(below, value);
      if (above - below > range) break;
      highs.push(above);
      lows.push(below);
      from--;
    }
    return { from, highs, lows };
  };
  const turnAt = (found: LookBack) => {
    written = found;
    start = found.from;
    turn = seen;
    [high, low] = [-Infinity, Infinity];
  };
  const close = (end: number) => {
    const window = { first: start, last: end };
    if (clock.along(window) >= shortest) windows.push(window);
  };

  for (let row = passCalm(first); row <= last; row = passCalm(row + 1)) {
    const value = medianAt(values, stretch, row);
    if (Math.max(top, value) - Math.min(bottom, value) <= range) {
      top = Math.max(top, value);
      bottom = Math.min(bottom, value);
      continue;
    }
    const unseen = seen + 1;
    seen = row;
    const steady = lookBack(unseen);
    if (steady.from > unseen) {
      close(row - 1);
      turnAt(steady);
    } else {
      high = Math.max(high, steady.highs.at(-1)!);
      low = Math.min(low, steady.lows.at(-1)!);
      if (highest() - lowest() > range) {
        close(row - 1);
        while (start <= turn && highest() - lowest() > range) start++;
        if (start > turn) turnAt(lookBack(turn + 1));
      }
    }
    [top, bottom] = [highest(), lowest()];
  }
  close(last);
  return windows;
}
