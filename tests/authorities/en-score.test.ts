import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { enScore, leakageDifference } from "../../src/core";
import { enScore as inCells } from "../../src/functions";
import gears from "./en-score/gears.json";
import { Random } from "./high-precision/random";
import { expectAgreement, expectPrinted } from "./support/compare";
import { column, numberOf } from "./support/sheet";

const stated = (value: number, expandedUncertainty: number, coverageFactor = 2) => ({
  value,
  expandedUncertainty,
  coverageFactor,
});

function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (values.length - 1));
}

test("NIST's gears: E_n of four diameters, in one call", () => {
  const { first_batch, assigned_value, standard_deviation_of_all, en } = gears;
  const of = [[2 * deviation(first_batch)], [assigned_value], [2 * standard_deviation_of_all]].map((cell) => [cell]);
  const rows = inCells(column(first_batch.slice(0, 4)), of[0]!, of[1]!, of[2]!) as unknown[][];
  en.forEach((printed, index) => expectPrinted(numberOf(rows[index]![0]), printed, 3));
});

describe("by hand (ISO 13528:2022 9.6 and 9.7, from memory)", () => {
  test("0.60 ± 0.03 and 0.55 ± 0.04: E_n is 0.05/0.05, which still agrees; ζ is 2, still acceptable", () => {
    const { en, zeta, differencePercent, agrees, signal } = enScore(stated(0.6, 0.03), stated(0.55, 0.04));
    expectAgreement(en, 1, 1e-13, "a difference of decimals");
    expectAgreement(zeta, 2, 1e-13, "twice that");
    expectAgreement(differencePercent, 100 / 11, 1e-13, "0.05 of 0.55");
    expect([agrees, signal]).toEqual([true, "acceptable"]);
  });

  test.each([
    [0.5999, true, "acceptable"],
    [0.6001, false, "warning signal"],
    [0.6249, false, "warning signal"],
    [0.6251, false, "action signal"],
  ])("%d ± 0.03 beside 0.55 ± 0.04: %s, %s", (value, agrees, signal) => {
    expect(enScore(stated(value, 0.03), stated(0.55, 0.04))).toMatchObject({ agrees, signal });
  });

  test("each U has its own coverage factor: u 0.03/3 and 0.04/2", () => {
    const { en, zeta } = enScore(stated(0.6, 0.03, 3), stated(0.55, 0.04, 2));
    expectAgreement(en, 1, 1e-13, "E_n knows no factor where nothing is common");
    expectAgreement(zeta, 0.05 / Math.hypot(0.01, 0.02), 1e-12, "hand arithmetic");
  });

  test("what both share is taken out: a volume that is 1 % off changes both alike", () => {
    // 5² − (2·0.02·100)² = 3², 5.2² − 4.8² = 2²; 2·0.02·(100 − 120) = −0.8.
    const { en } = enScore(stated(100, 5), stated(120, 5.2), 0.02);
    expectAgreement(en, -20 / Math.hypot(3, 2, 0.8), 1e-12, "hand arithmetic");
  });
});

const results = fc.record({
  one: fc.double({ min: 0.1, max: 10, noNaN: true }),
  ratio: fc.double({ min: 0.7, max: 1.4, noNaN: true }),
  own: fc.double({ min: 0.01, max: 0.1, noNaN: true }),
  otherOwn: fc.double({ min: 0.01, max: 0.1, noNaN: true }),
  common: fc.double({ min: 0, max: 0.05, noNaN: true }),
});

test("laws: swapped, the score changes its sign; another unit changes nothing; ζ is the change over its uncertainty in LEAKAGEDIFFERENCE", () => {
  fc.assert(
    fc.property(results, ({ one, ratio, own, otherOwn, common }) => {
      const other = one * ratio;
      const [u, v] = [one * Math.hypot(own, common), other * Math.hypot(otherOwn, common)];
      const there = enScore(stated(one, 2 * u), stated(other, 2 * v), common);
      const back = enScore(stated(other, 2 * v), stated(one, 2 * u), common);
      expect(back.en).toBeCloseTo(-there.en, 12);
      const scaled = enScore(stated(3.6 * one, 7.2 * u), stated(3.6 * other, 7.2 * v), common);
      expectAgreement(scaled.en, there.en, 1e-9, "a root of a difference of squares");
      const { change, uncertainty } = leakageDifference(one, other, { before: u, after: v, common });
      expectAgreement(there.zeta, change / uncertainty!.standard, 1e-9, "a root of a difference of squares");
      expectAgreement(there.en, there.zeta / 2, 1e-12, "k is 2 on both sides");
    }),
  );
});

test("simulated: two teams with the same device on the same house disagree in 5 % of pairs once the common part is stated, hardly ever while it is not", () => {
  const random = new Random(20_261_129);
  const [own, common, k] = [0.02, 0.04, 1.959963984540054];
  const pairs = 20_000;
  let [disagree, unstated] = [0, 0];
  for (let pair = 0; pair < pairs; pair++) {
    const device = 1 + common * random.normal();
    const [one, other] = [1, 2].map(() => {
      const value = 0.6 * device * (1 + own * random.normal());
      return stated(value, k * Math.hypot(own, common) * value, k);
    }) as [ReturnType<typeof stated>, ReturnType<typeof stated>];
    if (!enScore(one, other, common).agrees) disagree += 1;
    if (!enScore(one, other).agrees) unstated += 1;
  }
  expect(Math.abs(disagree / pairs - 0.05)).toBeLessThan(0.006);
  expect(unstated / pairs).toBeLessThan(0.001);
});
