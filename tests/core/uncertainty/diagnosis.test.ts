import { describe, expect, test } from "vitest";
import {
  diagnose,
  normal,
  prepare,
  rectangular,
  type BudgetPart,
  type BudgetRow,
  type Combination,
  type Output,
  type PreparedTest,
  type ReadingNoise,
  type Source,
} from "../../../src/core";

/** An invented depressurization test of readings from 60 Pa down to 12 Pa, without a baseline to deduct. */
function made(count: number, noise: Partial<ReadingNoise> = {}): PreparedTest {
  return prepare({
    direction: "depressurization",
    readings: [60, 52, 44, 33, 27, 19, 12].slice(-count).map((pressure, index) => ({
      row: index + 1,
      pressure: -pressure,
      flow: 31 * pressure ** 0.63 * (index % 2 ? 1.01 : 0.99),
      fan: { opening: 0, exponent: 0.5, pressure: 100, logOverPivot: 0 },
      time: (index + 0.5) / count,
    })),
    baselineBefore: 0,
    air: {
      temperature: { indoor: 20, outdoor: 5 },
      humidity: { indoor: 0.4, outdoor: 0.7 },
      barometricPressure: 101_325,
    },
    standard: "ISO 9972",
    technique: "ordinary",
    noise: { pressure: 0, flow: 0.01, stated: false, ...noise },
  });
}

const flow: Output = { of: "flow", pressure: 50 };
const parts: Readonly<Record<string, BudgetPart>> = {
  scatter_d: "scatter",
  scatter_p: "scatter",
  B_d: "movement",
  drift_d: "movement",
};
/** Rows of which only the part and the share matter. */
function budget(shares: Readonly<Record<string, number>>) {
  const rows = Object.keys(shares).map((symbol): BudgetRow => ({
    symbol,
    part: parts[symbol],
    uncertainty: 1,
    sensitivity: 1,
    degreesOfFreedom: 5,
  }));
  return { rows, combination: { shares: Object.values(shares) } as unknown as Combination };
}
const of = (
  test: PreparedTest,
  given: {
    shares?: Record<string, number>;
    sources?: Source[];
    own?: Source[];
    output?: Output;
    noiseIsStated?: boolean;
  } = {},
) => {
  const { rows, combination } = budget(given.shares ?? { g_e: 1 });
  return diagnose(
    test,
    { shared: given.sources ?? [], own: given.own ?? [] },
    given.output ?? flow,
    rows,
    combination,
    given.noiseIsStated ?? false,
  );
};
const seven = made(7);

test("a budget without any source of error has nothing to remark", () => {
  expect(of(seven)).toEqual({
    fewReadings: false,
    weak: false,
    unusable: false,
    weakBelow: 0,
    tooWindy: false,
    extrapolated: false,
    baselineMoved: false,
    scatter: undefined,
  });
});

test("few readings: six or less, where the scatter makes up more than a fifth", () => {
  const few = (count: number, shares: Record<string, number>) => of(made(count), { shares }).fewReadings;
  expect(few(6, { scatter_d: 0.3, g_e: 0.7 })).toBe(true);
  expect(few(6, { scatter_d: 0.15, scatter_p: 0.15, g_e: 0.7 })).toBe(true);
  expect(few(7, { scatter_d: 0.3, g_e: 0.7 })).toBe(false);
  expect(few(6, { scatter_d: 0.2, g_e: 0.8 })).toBe(false);
  expect(few(6, { g_e: 0.7, un_scatter_d: 0.3 })).toBe(false);
});

test("the baseline moved: its course and drift make up more than half; its readings do not count", () => {
  const moved = (shares: Record<string, number>) => of(seven, { shares }).baselineMoved;
  expect(moved({ B_d: 0.3, drift_d: 0.3, g_e: 0.4 })).toBe(true);
  expect(moved({ B_d: 0.25, drift_d: 0.25, g_e: 0.5 })).toBe(false);
  expect(moved({ B1_d: 0.8, B2_d: 0.1, g_e: 0.1 })).toBe(false);
  expect(moved({ gamma_B_d: 0.8, g_e: 0.2 })).toBe(false);
});

test("weak pressures: u(Δp) above a tenth of the lowest, unusable above a third of it, ten times u(Δp) is what to stay above", () => {
  const at = (uncertainty: number) => of(seven, { sources: [normal("o", "offset", uncertainty)] });
  expect(at(1.2)).toMatchObject({ weak: false, unusable: false });
  expect(at(1.21)).toMatchObject({ weak: true, unusable: false });
  expect(at(3.88)).toMatchObject({ weak: true, unusable: false });
  expect(at(3.89)).toMatchObject({ weak: true, unusable: true });
  expect(at(1.2).weakBelow).toBeCloseTo(12, 12);
  // The noise of a reading adds in squares; what does not shift a pressure does not.
  const both = of(made(7, { pressure: 0.4, flow: 0.02, stated: true }), {
    sources: [normal("o", "offset", 0.3), normal("f", "fanGain", 9)],
  });
  expect(both.weakBelow).toBeCloseTo(5, 12);
});

test("wind: an offset beyond a fifth of the lowest pressure is too much, by its half-width", () => {
  const windy = (halfWidth: number) =>
    of(seven, { sources: [normal("o", "offset", 0.1)], own: [rectangular("wind_d", "offset", halfWidth)] });
  expect(windy(2.4).tooWindy).toBe(false);
  expect(windy(2.41).tooWindy).toBe(true);
  expect(of(seven, { sources: [rectangular("stack", "offset", 2.41)] }).tooWindy).toBe(false);
});

describe("extrapolated", () => {
  test.each([
    [11.9, true],
    [12, false],
    [60, false],
    [60.1, true],
  ])("a flow at %d Pa from readings between 12 and 60 Pa: %s", (pressure, expected) => {
    expect(of(seven, { output: { of: "flow", pressure } }).extrapolated).toBe(expected);
  });

  test("n and C are of the line itself", () => {
    expect(of(seven, { output: { of: "exponent" } }).extrapolated).toBe(false);
    expect(of(seven, { output: { of: "coefficient" } }).extrapolated).toBe(false);
  });
});

test("scatter against what is stated: outside of what χ² with N − 2 degrees of freedom gives in 95 of 100 tests", () => {
  const unit = made(7, { flow: 1 }).random.chiSquare;
  const word = (chiSquare: number) =>
    of(made(7, { flow: Math.sqrt(unit / chiSquare) }), { noiseIsStated: true }).scatter;
  const [low, high] = [0.831, 12.833]; // printed tables, 2.5 and 97.5 % points
  expect(word(high * 1.001)).toBe("larger than stated");
  expect(word(high * 0.999)).toBe("as stated");
  expect(word(low * 1.001)).toBe("as stated");
  expect(word(low * 0.999)).toBe("smaller than stated");
});
