/** A logarithmic axis: from a value to its place along the axis. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  place(value: number): number;
}

/** An axis from `low` at `start` to `high` at `end`; places may run downwards. */
export function logScale(low: number, high: number, start: number, end: number): Scale {
  const span = Math.log(high / low);
  return { low, high, place: (value) => start + ((end - start) * Math.log(value / low)) / span };
}

/** Where an axis may begin and end within a decade. */
const ends = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10];

/** Some air between the outermost values and the frame. */
const air = 1.07;

/** Round ends of an axis that holds all values, which are above 0. */
export function axisEnds(values: readonly number[]): { low: number; high: number } {
  const [least, most] = [Math.min(...values) / air, Math.max(...values) * air];
  const decadeOf = (value: number) => 10 ** Math.floor(Math.log10(value) + 1e-12);
  const below = ends.filter((end) => end * decadeOf(least) <= least * (1 + 1e-9)).at(-1) ?? 1;
  const above = ends.find((end) => end * decadeOf(most) >= most * (1 - 1e-9)) ?? 10;
  return { low: below * decadeOf(least), high: above * decadeOf(most) };
}

/** Ways to divide a decade, from coarse to fine. */
const divisions = [
  [1],
  [1, 3],
  [1, 2, 5],
  [1, 2, 3, 5, 7],
  [1, 2, 3, 4, 5, 6, 8],
  [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9],
  [1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.4, 2.6, 2.8, 3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5],
];

function dividedBy(division: readonly number[], { low, high }: Scale): number[] {
  const ticks: number[] = [];
  for (let power = Math.floor(Math.log10(low)) - 1; power <= Math.log10(high) + 1; power++) {
    for (const part of division) {
      const tick = Number(`${part}e${power}`);
      if (tick >= low * (1 - 1e-9) && tick <= high * (1 + 1e-9)) ticks.push(tick);
    }
  }
  return ticks;
}

/** The finest ticks whose numbers stand at least a distance apart; `room` is what one number and the gap beside it take. */
export function labelledTicks(scale: Scale, room: (tick: number) => number): number[] {
  const fits = (ticks: readonly number[]) =>
    ticks.every((tick, index) => {
      const before = ticks[index - 1];
      if (before === undefined) return true;
      return Math.abs(scale.place(tick) - scale.place(before)) >= (room(tick) + room(before)) / 2;
    });
  const fine = divisions.map((division) => dividedBy(division, scale)).filter(fits);
  return fine.at(-1) ?? dividedBy([1], scale).slice(0, 1);
}

/** Every whole part of a decade, for the fine lines of the paper. */
export function paperLines(scale: Scale): number[] {
  return dividedBy([1, 2, 3, 4, 5, 6, 7, 8, 9], scale);
}

/** Digits in groups of three, set apart by narrow blanks where there are five or more. */
function grouped(digits: string): string {
  const [whole = "", rest] = digits.split(".");
  const groups = whole.replace("-", "").length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, "\u2009") : whole;
  return rest === undefined ? groups : `${groups}.${rest}`;
}

/** A number with a true minus sign, to so many significant digits, whole digits never lost; very large and very small ones as powers of ten. */
export function significant(value: number, digits: number): string {
  if (value === 0) return "0";
  const power = Math.floor(Math.log10(Math.abs(value)));
  if (power >= 9 || power < -4) {
    const mantissa = value / 10 ** power;
    return `${mantissa.toFixed(digits - 1)}·10^${power}`.replaceAll("-", "−");
  }
  return grouped(value.toFixed(Math.max(0, digits - 1 - power))).replace("-", "−");
}

/** A number with fixed decimals and a true minus sign. */
export function fixed(value: number, decimals: number): string {
  return value.toFixed(decimals).replace("-", "−");
}

/** The number at a tick as it is, without trailing noughts or binary noise. */
export function tickText(value: number): string {
  const power = Math.floor(Math.log10(value));
  if (power >= 9 || power < -4) return significant(value, 1);
  return grouped(String(Number(value.toPrecision(6))));
}
