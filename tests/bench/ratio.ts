/** One piece of work in a comparison. */
export interface Work {
  readonly name: string;
  readonly run: () => unknown;
  /** The same with half the work, by which the growth of the time is measured. */
  readonly half?: () => unknown;
}

export interface Ratio {
  readonly name: string;
  /** Time over the reference's time, median over the rounds, with the lowest and highest. */
  readonly median: number;
  readonly lowest: number;
  readonly highest: number;
  /** e where the time grows as the work to the power of e. */
  readonly growth?: number;
}

const rounds = 21;
const secondsPerRound = 0.05;

let sink: unknown;

/** Processor time of one run, so that other programs on the machine do not count. */
function nanoseconds(run: () => unknown, repeats: number): number {
  const start = process.cpuUsage();
  for (let repeat = 0; repeat < repeats; repeat++) sink = run();
  const { user, system } = process.cpuUsage(start);
  return ((user + system) * 1000) / repeats;
}

/** How often the work must run for a round to last long enough for the clock. */
function repeatsFor(run: () => unknown): number {
  let repeats = 1;
  while (nanoseconds(run, repeats) * repeats < secondsPerRound * 1e9) repeats *= 2;
  return repeats;
}

/** Exponent by which the time grows with the work, from the time over that of half the work; 1 is proportional. */
export function growthOf(ratioToHalf: number): number {
  return Math.log2(ratioToHalf);
}

/**
 * Times each work against the reference in the same rounds, turn and turn about, so that a machine that slows down slows both.
 * Absolute times are not given: they say more about the machine than about the code.
 */
export function ratios(reference: Work, works: readonly Work[]): Ratio[] {
  const referenceRepeats = repeatsFor(reference.run);
  const repeats = works.map(({ run }) => repeatsFor(run));
  const repeatsOfHalf = works.map(({ half }) => half && repeatsFor(half));
  const quotients: number[][] = works.map(() => []);
  const quotientsToHalf: number[][] = works.map(() => []);
  for (let round = 0; round < rounds; round++) {
    const base = nanoseconds(reference.run, referenceRepeats);
    works.forEach(({ run, half }, index) => {
      const time = nanoseconds(run, repeats[index]!);
      quotients[index]!.push(time / base);
      if (half !== undefined) quotientsToHalf[index]!.push(time / nanoseconds(half, repeatsOfHalf[index]!));
    });
  }
  if (sink === undefined) throw new Error("the work gave nothing");
  return works.map(({ name, half }, index) => {
    const sorted = quotients[index]!.sort((a, b) => a - b);
    return {
      name,
      median: sorted[rounds >> 1]!,
      lowest: sorted[0]!,
      highest: sorted[rounds - 1]!,
      ...(half && { growth: growthOf(quotientsToHalf[index]!.sort((a, b) => a - b)[rounds >> 1]!) }),
    };
  });
}
