function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** The rows from `first` to before `end`, by the rule as written: every window of every row is looked at, nothing is remembered. */
function inStretch(
  times: readonly number[],
  medians: readonly number[],
  [first, end]: readonly [number, number],
  range: number,
  shortest: number,
): [number, number][] {
  let best: [number, number] | undefined;
  for (let last = first; last < end; last++) {
    let start = last;
    let [high, low] = [medians[last]!, medians[last]!];
    while (start > first) {
      high = Math.max(high, medians[start - 1]!);
      low = Math.min(low, medians[start - 1]!);
      if (high - low > range) break;
      start--;
    }
    if (best === undefined || times[last]! - times[start]! > times[best[1]]! - times[best[0]]!) best = [start, last];
  }
  if (best === undefined || times[best[1]]! - times[best[0]]! < shortest) return [];
  const kept: [number, number] = [best[0] + 2, best[1] - 2];
  const accepted = kept[1] >= kept[0] && times[kept[1]]! - times[kept[0]]! >= shortest;
  return [
    ...inStretch(times, medians, [first, best[0]], range, shortest),
    ...(accepted ? [kept] : []),
    ...inStretch(times, medians, [best[1] + 1, end], range, shortest),
  ];
}

/** First and last row, counted from 0, of each station of a log with times in seconds: slow, and written from the rule alone. */
export function stationsByHand(
  times: readonly number[],
  pressures: readonly number[],
  tolerance: number,
  shortest: number,
): [number, number][] {
  const usual = median(times.slice(1).map((time, index) => time - times[index]!));
  const ends = times.flatMap((time, index) => (index > 0 && time - times[index - 1]! > 5 * usual ? [index] : []));
  const edges = [0, ...ends, times.length];
  return edges.slice(1).flatMap((end, index) => {
    const first = edges[index]!;
    const medians = pressures.map((_, row) =>
      median(pressures.slice(Math.max(first, row - 2), Math.min(end, row + 3))),
    );
    return inStretch(times, medians, [first, end], 2 * tolerance + 1e-9, shortest);
  });
}

/** Normal noise whose neighbours are correlated, mean 0, from a seed. */
export function autoregression(count: number, correlation: number, seed: number): number[] {
  let state = (seed * 2_654_435_761) % 2_147_483_647;
  const draw = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
  const normal = () => Math.sqrt(-2 * Math.log(draw())) * Math.cos(2 * Math.PI * draw());
  for (let warm = 0; warm < 10; warm++) draw();
  let value = normal();
  const step = Math.sqrt(1 - correlation * correlation);
  return Array.from({ length: count }, () => (value = correlation * value + step * normal()));
}
