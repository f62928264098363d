import { randomStream } from "../../src/core/uncertainty/monte-carlo";

/** Random choices that are the same on every machine for a seed. */
export interface Draws {
  /** A whole number from 0 to `count` − 1. */
  below(count: number): number;
  /** True once in so many times. */
  onceIn(count: number): boolean;
  pick<Of>(list: readonly Of[]): Of;
  /** A seed for further draws, which do not change when these go on. */
  seed(): number;
}

export function drawsOf(seed: number): Draws {
  const { integer, uniform } = randomStream(seed | 0);
  const below = (count: number): number => Math.floor(uniform() * count);
  return {
    below,
    onceIn: (count) => below(count) === 0,
    pick: <Of>(list: readonly Of[]): Of => list[below(list.length)]!,
    seed: integer,
  };
}
