export type Direction = "depressurization" | "pressurization";

/** What a gauge showed in one direction: pressures to a tenth of a pascal, fan pressures too, with the scatter of a calm day. */
export interface Readings {
  readonly pressures: readonly number[];
  readonly fan: readonly number[];
  readonly flows: readonly number[];
  readonly before: readonly number[];
  readonly after: readonly number[];
}

/** The certificate of the invented device: openings with c and m of q = c·p^m in m³/h. */
export const certificate = [
  ["wide", 62.4, 0.498],
  ["ring 1", 21.7, 0.503],
  ["ring 2", 8.15, 0.511],
] as const;

const tenth = (value: number, digits = 1): number => Number(value.toFixed(digits));

/**
 * Readings of an invented house of q = C·Δp^n, always the same for the same seed.
 * The flow is that at the fan; its scatter is 0.6 %, that of the pressures 0.4 Pa.
 */
export function readGauge(seed: number, direction: Direction, coefficient: number, exponent = 0.66): Readings {
  let state = seed * 7919 + (direction === "depressurization" ? 1 : 2);
  const chance = (): number => {
    state = (state * 48271 + 11) % 2147483647;
    return state / 2147483647 - 0.5;
  };
  for (let index = 0; index < 8; index++) chance();
  const sign = direction === "depressurization" ? -1 : 1;
  const zero = -0.9 + chance();
  const baselines = () => Array.from({ length: 6 }, () => tenth(zero + 0.9 * chance()));
  const steps = [60, 53, 46, 39, 32, 25, 18, 12].map((step) => step + 3 * chance());
  const flows = steps.map((step) => coefficient * step ** exponent * (1 + 0.012 * chance()));
  const [, c, m] = certificate[1];
  return {
    pressures: steps.map((step) => tenth(sign * step + zero + 0.4 * chance())),
    fan: flows.map((flow) => tenth((flow / c) ** (1 / m))),
    flows: flows.map((flow) => tenth(flow)),
    before: baselines(),
    after: baselines(),
  };
}
