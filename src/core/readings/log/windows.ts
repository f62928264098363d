import type { Clock, Stretch } from "./log";

/** Index of the longest window among a run of windows, the earliest on ties: a tree of winners, built once, asked in log time. */
function longestAmong(windows: readonly Stretch[], clock: Clock): (from: number, to: number) => number {
  const count = windows.length;
  const length = (index: number) => clock.along(windows[index]!);
  const better = (a: number, b: number) => {
    if (a < 0 || b < 0) return Math.max(a, b);
    const [earlier, later] = a < b ? [a, b] : [b, a];
    return length(later) > length(earlier) ? later : earlier;
  };
  const tree = new Int32Array(2 * count);
  for (let index = 0; index < count; index++) tree[count + index] = index;
  for (let node = count - 1; node > 0; node--) tree[node] = better(tree[2 * node]!, tree[2 * node + 1]!);
  return (from, to) => {
    let best = -1;
    for (let [left, right] = [from + count, to + 1 + count]; left < right; left >>= 1, right >>= 1) {
      if (left % 2 === 1) best = better(best, tree[left++]!);
      if (right % 2 === 1) best = better(best, tree[--right]!);
    }
    return best;
  };
}

/** First index of a rising sequence whose value is at least the wanted one. */
function firstAtLeast(count: number, value: (index: number) => number, wanted: number): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (value(middle) >= wanted) high = middle;
    else low = middle + 1;
  }
  return low;
}

const droppedAtEachEnd = 2;

/**
 * Takes the longest window in time, the earliest on ties, drops two rows at each end and accepts what is left if it lasts long enough; then the same in
 * what lies left and right of the whole window. Result in the order of time.
 */
export function acceptedWindows(
  stretch: Stretch,
  windows: readonly Stretch[],
  clock: Clock,
  shortest: number,
): Stretch[] {
  const longest = longestAmong(windows, clock);
  const lasts = (window: Stretch) => (window.last < window.first ? -1 : clock.along(window));
  const accepted: Stretch[] = [];
  const open: Stretch[] = [stretch];
  for (let within = open.pop(); within !== undefined; within = open.pop()) {
    const { first, last } = within;
    // Of the windows that reach over an end of what is left, the one that goes farthest inwards counts, cut at that end; between them, whole ones.
    const inner = firstAtLeast(windows.length, (index) => windows[index]!.first, first);
    const outer = firstAtLeast(windows.length, (index) => windows[index]!.last, last + 1);
    const cut = (window: Stretch | undefined): Stretch =>
      window === undefined
        ? { first: 0, last: -1 }
        : { first: Math.max(first, window.first), last: Math.min(last, window.last) };
    let best = cut(windows[inner - 1]);
    const whole = inner < outer ? longest(inner, outer - 1) : -1;
    for (const rival of [cut(windows[whole]), cut(windows[outer])]) {
      if (lasts(rival) > lasts(best)) best = rival;
    }
    // A shorter window than this cannot hold a station, nor can any part of it.
    if (lasts(best) < shortest) continue;
    const kept = { first: best.first + droppedAtEachEnd, last: best.last - droppedAtEachEnd };
    if (lasts(kept) >= shortest) accepted.push(kept);
    if (best.first > first) open.push({ first, last: best.first - 1 });
    if (best.last < last) open.push({ first: best.last + 1, last });
  }
  return accepted.sort((a, b) => a.first - b.first);
}

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

// Looked up once, not for every row: not every host makes that cheap.
const { max, min } = Math;

/** How many rows on either side the running median looks at. */
export const reach = 2;

function medianOfFew(values: number[]): number {
  values.sort((a, b) => a - b);
  const middle = values.length >> 1;
  return values.length % 2 === 1 ? values[middle]! : (values[middle - 1]! + values[middle]!) / 2;
}

/** The running median of five of one stretch at a row; at the ends over the rows that there are. It only finds where the pressure is steady: one wild row does not end a station. */
export function medianAt(values: Float64Array, { first, last }: Stretch, index: number): number {
  if (index < first + reach || index > last - reach) {
    return medianOfFew([...values.subarray(max(first, index - reach), min(last, index + reach) + 1)]);
  }
  const [a, b, c] = [values[index - 2]!, values[index - 1]!, values[index]!];
  const [d, e] = [values[index + 1]!, values[index + 2]!];
  // The lower of the pairs' lower values and the higher of their higher ones cannot be the median of five; the rest is a median of three.
  const x = max(min(a, b), min(c, d));
  const y = min(max(a, b), max(c, d));
  return max(min(x, y), min(e, max(x, y)));
}

/** The lowest and highest of some numbers. Compared by hand: a million rows pass here, and not every host makes Math.max cheap. */
export class Bounds {
  highest = -Infinity;
  lowest = Infinity;

  constructor(...parts: readonly (Bounds | undefined)[]) {
    for (const part of parts) if (part) this.addAll(part);
  }

  static of(values: Float64Array, first: number, last: number): Bounds {
    const bounds = new Bounds();
    for (let index = first; index <= last; index++) bounds.add(values[index]!);
    return bounds;
  }

  add(value: number): void {
    if (value > this.highest) this.highest = value;
    if (value < this.lowest) this.lowest = value;
  }

  addAll({ highest, lowest }: Bounds): void {
    if (highest > this.highest) this.highest = highest;
    if (lowest < this.lowest) this.lowest = lowest;
  }

  /** How far apart the numbers lie. */
  get span(): number {
    return this.highest - this.lowest;
  }

  /** How far apart they would lie with one more. */
  spanWith(value: number): number {
    return (value > this.highest ? value : this.highest) - (value < this.lowest ? value : this.lowest);
  }
}
