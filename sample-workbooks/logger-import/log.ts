import { house, opening } from "./scenario";

/** A row of the export: when, building pressure and fan pressure in Pa, what the tester marked. */
export type LogRow = readonly [time: number, pressure: number, fanPressure: number, state: "zero flow" | "fan running"];

const secondsPerDay = 86_400;
const start = house.day + (10 * 3600 + 4 * 60) / secondsPerDay;

/** Invented house: q = 29.4·Δp^0.64 in m³/h indicated, a little more when blowing in. */
const leakage = { depressurization: 29.4, pressurization: 30.9, exponent: 0.64 } as const;

const stationSeconds = 42;
const rampSeconds = 7;
const zeroFlowSeconds = 60;

/** Noise that is the same at each making: a gust lasts some seconds, so neighbouring rows are alike. */
function gusts(): () => number {
  let state = 20_261;
  let gust = 0;
  const draw = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647 - 0.5;
  return () => (gust = 0.75 * gust + 0.5 * draw());
}

/** One row a second: covered, eight stations of depressurization, covered, eight of pressurization, covered. */
export function madeLog(): readonly LogRow[] {
  const rows: LogRow[] = [];
  const gust = gusts();
  const rounded = (value: number) => Math.round(10 * value) / 10;
  const write = (pressure: number, fanPressure: number, state: LogRow[3]) => {
    const time = start + rows.length / secondsPerDay;
    rows.push([time, rounded(pressure), rounded(fanPressure), state]);
  };
  const zeroFlow = (baseline: number) => {
    for (let second = 0; second < zeroFlowSeconds; second += 1) write(baseline + gust(), 0, "zero flow");
  };
  const run = (sign: number, coefficient: number, levels: readonly number[]) => {
    let from = 0;
    for (const level of levels) {
      for (let second = 1; second <= rampSeconds + stationSeconds; second += 1) {
        const now = second < rampSeconds ? from + ((level - from) * second) / rampSeconds : level;
        const flow = coefficient * Math.pow(Math.abs(now), leakage.exponent) * (1 + 0.01 * gust());
        const fanPressure = Math.pow(flow / opening.coefficient, 1 / opening.exponent);
        write(sign * now + baselines.between + 0.6 * gust(), fanPressure, "fan running");
      }
      from = level;
    }
  };
  zeroFlow(baselines.before);
  run(-1, leakage.depressurization, [60, 54, 47, 41, 35, 28, 21, 15]);
  zeroFlow(baselines.between);
  run(1, leakage.pressurization, [61, 55, 48, 42, 34, 27, 20, 14]);
  zeroFlow(baselines.after);
  return rows;
}

const baselines = { before: -1.6, between: -1.4, after: -1.2 } as const;
