import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { finalForecast } from "../../src/core";
import { Random } from "./high-precision/random";
import { expectAgreement, expectPrinted } from "./support/compare";

describe("the final test, forecast", () => {
  const at = (likely: number, low: number, high: number, row = 1) => ({ likely, low, high, row });

  test("by hand: 500·exp(±1.96·0.02), less 100 (80 to 150), plus 20 to 40", () => {
    const forecast = finalForecast(500, 10, [at(100, 80, 150)], [{ low: 20, high: 40, row: 1 }], 430);
    expectPrinted(forecast.likely, 500 - 100 + 30, 9);
    // exp(0.0391993) = 1.0399777: 480.780 and 519.989.
    expectPrinted(forecast.best, 480.78 - 150 + 20, 2);
    expectPrinted(forecast.worst, 519.99 - 80 + 40, 2);
    // Triangle 80, 100, 150: mean 110, variance (80² + 100² + 150² − 80·100 − 80·150 − 100·150)/18; rectangle 20²/12. JCGM 101:2008 6.4.
    expectPrinted(forecast.expected, 500 - 110 + 30, 9);
    const triangle = (6400 + 10_000 + 22_500 - 8000 - 12_000 - 15_000) / 18;
    const u = Math.sqrt(100 + triangle + 400 / 12);
    expectAgreement(forecast.standardUncertainty, u, 1e-12, "hand arithmetic");
    expectAgreement(forecast.upper, 420 * Math.exp((1.959963984540054 * u) / 420), 1e-12, "hand arithmetic");
    // ln(430/420)/(u/420) with u = √350 is 0.528; published tables have Φ(0.52) = 0.6985 and Φ(0.53) = 0.7019.
    expectPrinted(forecast.probability, 0.701, 3);
    expect(forecast.outlook).toBe("can go either way");
  });

  test("simulated: flow and ranges drawn by their laws meet the limit about as often as the probability says", () => {
    const random = new Random(20_261_129);
    const triangular = (low: number, likely: number, high: number) => {
      const [u, turn] = [random.unit(), (likely - low) / (high - low)];
      return u < turn
        ? low + Math.sqrt(u * (high - low) * (likely - low))
        : high - Math.sqrt((1 - u) * (high - low) * (high - likely));
    };
    const ranges = [at(100, 80, 150), at(60, 40, 70, 2), at(25, 10, 60, 3)];
    const drawn = Array.from({ length: 40_000 }, () => {
      const repaired = ranges.reduce((sum, { low, likely, high }) => sum + triangular(low, likely, high), 0);
      return 500 * Math.exp(0.03 * random.normal()) - repaired + random.between(20, 40);
    });
    for (const allowed of [290, 310, 320, 330, 340, 360]) {
      const { probability } = finalForecast(500, 15, ranges, [{ low: 20, high: 40, row: 1 }], allowed);
      const share = drawn.filter((flow) => flow <= allowed).length / drawn.length;
      // The sum of the ranges is taken as one lognormal: within 2 %; the share itself is right to 0.3 %.
      expect(Math.abs(probability - share), `${allowed}: ${probability} against ${share}`).toBeLessThan(0.02);
    }
  });

  test("best, likely and worst are in order, and wider ranges widen them", () => {
    const ranges = fc.array(fc.tuple(fc.nat(60), fc.nat(30), fc.nat(30)), { maxLength: 4 });
    fc.assert(
      fc.property(ranges, ranges, fc.nat(30), (repairs, openings, u) => {
        const made = (list: [number, number, number][], wider = 0) =>
          list.map(([low, a, b], row) => at(low + a, Math.max(0, low - wider), low + a + b + wider, row + 1));
        const forecast = finalForecast(1000, u, made(repairs), made(openings), 400);
        const wider = finalForecast(1000, u, made(repairs, 5), made(openings, 5), 400);
        const slack = 1e-9;
        expect(forecast.best).toBeLessThanOrEqual(forecast.likely + slack);
        expect(forecast.likely).toBeLessThanOrEqual(forecast.worst + slack);
        expect(wider.best).toBeLessThanOrEqual(forecast.best + slack);
        expect(wider.worst).toBeGreaterThanOrEqual(forecast.worst - slack);
        expect(forecast.probability >= 0.975).toBe(forecast.upper <= 400);
        expect(wider.standardUncertainty).toBeGreaterThanOrEqual(forecast.standardUncertainty - slack);
      }),
    );
  });
});
