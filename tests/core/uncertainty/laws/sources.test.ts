import { describe, expect, test } from "vitest";
import {
  analyzeBaselines,
  baselineMovement,
  randomStream,
  stackHalfWidth,
  studentT,
  windHalfWidth,
} from "../../../../src/core";

const gauge = { resolution: 0.1, ofOne: 0.2 };

describe("means of baseline readings", () => {
  test("few rows: independent, s/√m with m − 1 degrees of freedom, and the correlation cannot be told", () => {
    const { before, after, correlation } = analyzeBaselines([1, 2, 3, 4], [-1, -3], gauge);
    expect(Math.abs(before.uncertainty - Math.sqrt(5 / 3 / 4))).toBeLessThan(1e-15);
    expect(before.degreesOfFreedom).toBe(3);
    expect(after).toEqual({ uncertainty: 1, degreesOfFreedom: 1 });
    expect(correlation).toBeUndefined();
  });

  test("what the gauge resolves; one value only", () => {
    expect(analyzeBaselines([1, 1, 1], [1], gauge)).toEqual({
      before: { uncertainty: 0.1 / Math.sqrt(12), degreesOfFreedom: Infinity },
      after: { uncertainty: 0.2, degreesOfFreedom: 8 },
      correlation: undefined,
      deviation: undefined,
    });
  });

  test("alike neighbours are worth fewer rows; both sets tell how alike they are", () => {
    const slow = [0, 1, 2, 1, 0, -1, -2, -1, 0, 1, 2, 1];
    const { before, after, correlation } = analyzeBaselines(
      slow,
      slow.map((value) => value + 3),
      gauge,
    );
    const [sum, squares, products] = [
      4,
      18 - 16 / 12,
      slow.slice(1).reduce((total, value, index) => total + (value - 4 / 12) * (slow[index]! - 4 / 12), 0),
    ];
    expect(sum / 12).toBeCloseTo(1 / 3, 15);
    const r1 = products / squares;
    const phi = r1 + (1 + 4 * r1) / 12;
    expect(correlation).toBeCloseTo(phi, 12);
    const worth = Math.max(2, (12 * (1 - phi)) / (1 + phi));
    expect(before.uncertainty).toBeCloseTo(Math.sqrt(squares / (12 - 12 / worth) / worth), 12);
    expect(before.degreesOfFreedom).toBeCloseTo(worth - 1, 12);
    expect(after!.uncertainty).toBeCloseTo(before.uncertainty, 12);
  });

  test("rows that alternate look independent, not better than that", () => {
    const { before, correlation } = analyzeBaselines([1, -1, 1, -1, 1, -1, 1, -1], undefined, gauge);
    expect(correlation).toBe(0);
    expect(before).toEqual({ uncertainty: Math.sqrt(8 / 7 / 8), degreesOfFreedom: 7 });
  });

  test("noise of one reading: about the mean of each set, from three degrees of freedom on, never finer than the gauge", () => {
    expect(analyzeBaselines([1, 3], [11, 13, 15], gauge).deviation).toBeCloseTo(Math.sqrt((2 + 8) / 3), 12);
    expect(analyzeBaselines([1, 3], [11, 13], gauge).deviation).toBeUndefined();
    expect(analyzeBaselines([1, 1, 1, 1], undefined, gauge).deviation).toBe(0.1 / Math.sqrt(12));
  });

  test("the interval of the mean holds the truth where gusts are longer than a row: one minute of readings a second apart", () => {
    const { normal } = randomStream(20);
    const gusts = (phi: number, count: number) => {
      let value = normal();
      return Array.from({ length: count }, () => (value = phi * value + Math.sqrt(1 - phi ** 2) * normal()));
    };
    const holds = (phi: number) => {
      const tests = 2000;
      let count = 0;
      for (let index = 0; index < tests; index++) {
        const rows = gusts(phi, 60);
        const { before } = analyzeBaselines(rows, gusts(phi, 60), { resolution: 1e-6, ofOne: 1 });
        const mean = rows.reduce((sum, value) => sum + value, 0) / 60;
        if (Math.abs(mean) <= studentT(0.95, Math.max(1, Math.floor(before.degreesOfFreedom))) * before.uncertainty)
          count++;
      }
      return count / tests;
    };
    // Taken as independent, 95 % intervals hold 51 % at 0.8 and 25 % at 0.95. The standard error of a share is 0.5 %.
    for (const phi of [0, 0.5, 0.8]) expect(Math.abs(holds(phi) - 0.955)).toBeLessThan(0.025);
    expect(holds(0.95)).toBeGreaterThan(0.9);
  });
});

test("movement of the baseline counts beyond its own uncertainty only", () => {
  expect(baselineMovement(-1.4, -0.8, 0, 0)).toBeCloseTo(0.6, 15);
  expect(baselineMovement(-1.4, -0.8, 0.3, 0.3) ** 2).toBeCloseTo(0.36 - 0.18, 15);
  expect(baselineMovement(-1, -1.1, 0.3, 0.3)).toBe(0);
});

test("wind and stack: a tenth of 0.5·1.25·2² Pa, and of 3.5 Pa over 8 m at 20/0 °C twice over", () => {
  expect(windHalfWidth(0.1, 1, 1.25, 2)).toBeCloseTo(0.25, 15);
  expect(stackHalfWidth(0.1, 8, { indoor: 1.2041, outdoor: 1.2922 })).toBeCloseTo(0.1 * 6.912, 3);
});
