import { describe, expect, it } from "vitest";
import { areComputed, type EnteredFigures } from "../../../src/workbook/verify/checks/exact-readings";

/** Uniform in 0 to 1, the same for a seed (Park and Miller 1988). */
function createChance(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

const round = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

/** A direction as an honest tester enters it: what the gauge held, what the wind did, what the display showed. */
function simulateHonest(chance: () => number, resolution: number): EnteredFigures {
  const normal = () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());
  const count = 5 + Math.floor(6 * chance());
  const step = [5, 5, 6, 8, 10][Math.floor(5 * chance())] ?? 5;
  const [coefficient, exponent] = [10 + 90 * chance(), 0.55 + 0.2 * chance()];
  const [zero, scatter, held] = [3 * (chance() - 0.5), 0.02 * 50 ** chance(), 0.05 + 0.45 * chance()];
  const averaged = scatter * (0.25 + 0.75 * chance());
  const flowStep = chance() < 0.5 ? 0.1 : 1;
  const targets = Array.from({ length: count }, (_, index) => 10 + step * index);
  const shown = targets.map((target) => round(target + held * normal(), resolution));
  const flows = shown.map((pressure) => {
    // What the display rounds away and what the wind added is in the flow.
    const crossed = pressure + resolution * (chance() - 0.5) + averaged * normal() - zero;
    return round(coefficient * Math.max(1, crossed) ** exponent, flowStep);
  });
  const zeros = [0, 1].map(() => Array.from({ length: 10 }, () => round(zero + scatter * normal(), resolution)));
  const means = zeros.map((set) => set.reduce((a, b) => a + b) / set.length);
  const squares = zeros.flatMap((set, index) => set.map((value) => (value - (means[index] ?? 0)) ** 2));
  return {
    pressures: shown,
    flows,
    flowStep,
    zero: ((means[0] ?? 0) + (means[1] ?? 0)) / 2,
    scatter: Math.sqrt(squares.reduce((a, b) => a + b) / (squares.length - 2)),
  };
}

describe("readings in equal steps on a line", () => {
  it.each([{ resolution: 0.1 }, { resolution: 1 }])(
    "are found in two of 10 000 honest directions at most, gauge of $resolution Pa",
    ({ resolution }) => {
      const chance = createChance(2026);
      const found = Array.from({ length: 20_000 }, () => areComputed(simulateHonest(chance, resolution)));
      expect(found.filter(Boolean).length).toBeLessThan(4);
    },
  );

  it("are found in one of 200 honest directions at most, if every pressure were held to the last digit", () => {
    const chance = createChance(7);
    const held = Array.from({ length: 20_000 }, () => {
      const honest = simulateHonest(chance, 0.1);
      return areComputed({ ...honest, pressures: honest.pressures.map((_, index) => 10 + 5 * index) });
    });
    expect(held.filter(Boolean).length).toBeLessThan(100);
  });

  it("are found in nine of ten computed directions with flows to a tenth, the baseline thought of or not", () => {
    const chance = createChance(11);
    const computed = Array.from({ length: 2_000 }, () => {
      const [coefficient, exponent] = [20 + 80 * chance(), 0.55 + 0.2 * chance()];
      const zero = 3 * (chance() - 0.5);
      const pressures = Array.from({ length: 8 }, (_, index) => 25 + 5 * index);
      const shift = chance() < 0.5 ? 0 : zero;
      const flows = pressures.map((pressure) => round(coefficient * (pressure - shift) ** exponent, 0.1));
      return areComputed({ pressures, flows, flowStep: 0.1, zero, scatter: 0.3 });
    });
    expect(computed.filter(Boolean).length).toBeGreaterThan(1_800);
  });
});
