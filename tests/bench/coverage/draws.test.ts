import { describe, expect, test } from "vitest";
import { Draws } from "./physics/draws";
import { deviationOfMean, gustsOf } from "./physics/gusts";
import { drawRigErrors, drawVisitErrors, usual } from "./physics/instruments";
import { philox, type Counter } from "./physics/philox";

describe("Philox4x32-10 against the known answers of Random123 (Salmon et al. 2011, kat_vectors)", () => {
  const known: readonly (readonly [Counter, readonly [number, number], readonly number[]])[] = [
    [
      [0, 0, 0, 0],
      [0, 0],
      [0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8],
    ],
    [
      [0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff],
      [0xffffffff, 0xffffffff],
      [0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd],
    ],
    [
      [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
      [0xa4093822, 0x299f31d0],
      [0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1],
    ],
  ];
  test.each(known)("counter %j, key %j", (counter, key, answer) => {
    expect(philox(counter, key)).toEqual(answer);
  });
});

const count = 100_000;

function sample(draw: () => number): number[] {
  return Array.from({ length: count }, draw);
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function deviationOf(values: readonly number[]): number {
  const middle = meanOf(values);
  return Math.sqrt(meanOf(values.map((value) => (value - middle) ** 2)));
}

/** Five standard errors of a mean, and of a standard deviation of a normal sample, over the deviation. */
const fiveErrors = { mean: 5 / Math.sqrt(count), deviation: 5 / Math.sqrt(2 * count) };

function expectMoments(values: readonly number[], mean: number, deviation: number): void {
  expect(Math.abs(meanOf(values) - mean) / deviation).toBeLessThan(fiveErrors.mean);
  expect(Math.abs(deviationOf(values) / deviation - 1)).toBeLessThan(fiveErrors.deviation);
}

describe("the laws have their moments", () => {
  test("even", () => {
    const draws = new Draws(3, "even", 0);
    expectMoments(
      sample(() => draws.uniform()),
      0.5,
      Math.sqrt(1 / 12),
    );
    const values = sample(() => draws.rectangular(0.3));
    expectMoments(values, 0, 0.3 / Math.sqrt(3));
    expect(values.every((value) => Math.abs(value) < 0.3)).toBe(true);
  });

  test("normal: 95 % within 1.96 standard deviations, neighbours independent", () => {
    const draws = new Draws(3, "normal", 0);
    const values = sample(() => draws.normal(2));
    expectMoments(values, 0, 2);
    const inside = values.filter((value) => Math.abs(value) < 2 * 1.959964).length / count;
    expect(Math.abs(inside - 0.95)).toBeLessThan(5 * Math.sqrt((0.95 * 0.05) / count));
    const products = values.slice(1).map((value, index) => (value * values[index]!) / 4);
    expect(Math.abs(meanOf(products))).toBeLessThan(fiveErrors.mean);
  });

  test("truncated normal stays within its limits and is cut evenly", () => {
    const draws = new Draws(3, "truncated", 0);
    const values = sample(() => draws.truncatedNormal(0.65, 0.057, 0.5, 0.8));
    expect(values.every((value) => value >= 0.5 && value <= 0.8)).toBe(true);
    // Cut at ±a deviations, a = 0.15/0.057, the variance is 1 − 2a·φ(a)/(2Φ(a) − 1) of the whole: 0.9660 of the deviation.
    expectMoments(values, 0.65, 0.966 * 0.057);
  });

  test("tests of one seed have independent numbers", () => {
    const pairs = Array.from({ length: 20_000 }, (_, test) => [
      new Draws(3, "pairs", test).normal(),
      new Draws(3, "pairs", test + 1).normal(),
    ]);
    expect(Math.abs(meanOf(pairs.map(([one, other]) => one! * other!)))).toBeLessThan(5 / Math.sqrt(pairs.length));
  });

  test("errors of instruments: accuracies and zeros are half-widths, uncertainties standard deviations", () => {
    const draws = new Draws(3, "instruments", 0);
    const rigs = Array.from({ length: count }, () => drawRigErrors(usual, draws));
    expectMoments(
      rigs.map(({ gaugeGain }) => gaugeGain),
      0,
      0.01 / Math.sqrt(3),
    );
    expectMoments(
      rigs.map(({ flowGain }) => flowGain),
      0,
      0.015,
    );
    expectMoments(
      rigs.map(({ openingExponent }) => openingExponent[1]!),
      0,
      0.003,
    );
    const visits = Array.from({ length: count }, () => drawVisitErrors(usual, draws));
    expectMoments(
      visits.map(({ zeroShift }) => zeroShift),
      0,
      0.1 / Math.sqrt(3),
    );
    expectMoments(
      visits.map(({ barometer }) => barometer),
      0,
      100,
    );
  });
});

describe("gusts", () => {
  const gusts = { deviation: 1.5, autocorrelation: 0.8 };

  test("have the deviation and the correlation that were asked for", () => {
    const draws = new Draws(3, "gusts", 0);
    const path = gustsOf(gusts, count, draws);
    const correlation = meanOf(path.slice(1).map((value, index) => value * path[index]!)) / deviationOf(path) ** 2;
    // The rows are worth (1 − φ)/(1 + φ) of as many independent ones, for the squares (1 − φ²)/(1 + φ²).
    expect(Math.abs(deviationOf(path) / 1.5 - 1)).toBeLessThan(fiveErrors.deviation * Math.sqrt(1.64 / 0.36));
    expect(Math.abs(correlation - 0.8)).toBeLessThan(5 * Math.sqrt(0.36 / count));
  });

  test.each([
    ["the first second is as any other", 1],
    ["the mean of 20 seconds", 20],
  ])("%s", (_, seconds) => {
    const draws = new Draws(3, "means", seconds);
    const means = Array.from({ length: 20_000 }, () => meanOf(gustsOf(gusts, seconds, draws)));
    expect(Math.abs(deviationOf(means) / deviationOfMean(gusts, seconds) - 1)).toBeLessThan(5 / Math.sqrt(40_000));
  });

  test("white noise averages down by the root of the number", () => {
    expect(deviationOfMean({ deviation: 2, autocorrelation: 0 }, 16)).toBe(0.5);
  });
});
