import { type Log, type Station } from "../../../../src/core";

/** A log of one row a second. */
export function log(pressures: readonly number[], more: Partial<Log> = {}): Log {
  return { times: Float64Array.from(pressures.keys()), pressures: Float64Array.from(pressures), ...more };
}

export const at = (times: readonly number[], pressures: readonly number[]): Log => ({
  times: Float64Array.from(times),
  pressures: Float64Array.from(pressures),
});

/** Rows that go up and down by a tenth about a level. */
export const about = (level: number, count: number) =>
  Array.from({ length: count }, (_, index) => level + (index % 2 ? 0.1 : -0.1));

export const rows = (stations: readonly Station[]) => stations.map(({ firstRow, lastRow }) => [firstRow, lastRow]);

export const many = (value: number, count: number) => Array<number>(count).fill(value);
