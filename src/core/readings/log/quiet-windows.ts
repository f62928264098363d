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
