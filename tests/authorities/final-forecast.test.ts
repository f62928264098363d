import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { finalForecast } from "../../src/core";
import { expectAgreement, expectPrinted } from "./support/compare";

describe("the final test, forecast", () => {
  const at = (likely: number, low: number, high: number, row = 1) => ({ likely, low, high, row });

  test("by hand: 500 ± 1.96·10, less 100 (80 to 150), plus 20 to 40", () => {
    const forecast = finalForecast(500, 10, [at(100, 80, 150)], [{ low: 20, high: 40, row: 1 }], 430);
    expectPrinted(forecast.likely, 500 - 100 + 30, 9);
    expectPrinted(forecast.best, 500 - 19.6 - 150 + 20, 3);
    expectPrinted(forecast.worst, 500 + 19.6 - 80 + 40, 3);
    // Triangle 80, 100, 150: mean 110, variance (80² + 100² + 150² − 80·100 − 80·150 − 100·150)/18; rectangle 20²/12. JCGM 101:2008 6.4.
    expectPrinted(forecast.expected, 500 - 110 + 30, 9);
    const triangle = (6400 + 10_000 + 22_500 - 8000 - 12_000 - 15_000) / 18;
    const u = Math.sqrt(100 + triangle + 400 / 12);
    expectAgreement(forecast.standardUncertainty, u, 1e-12, "hand arithmetic");
    expectAgreement(forecast.upper, 420 + 1.959963984540054 * u, 1e-12, "hand arithmetic");
    expect(forecast.outlook).toBe("likely to meet the limit");
  });

  test("each outlook where it begins, limits met included", () => {
    const { best, likely, worst } = finalForecast(500, 10, [at(100, 80, 150)], [], 1);
    const outlook = (allowed: number) => finalForecast(500, 10, [at(100, 80, 150)], [], allowed).outlook;
    expect([worst, worst - 0.01, likely, likely - 0.01, best, best - 0.01].map(outlook)).toEqual([
      "meets the limit even at worst",
      "likely to meet the limit",
      "likely to meet the limit",
      "likely to miss the limit",
      "likely to miss the limit",
      "misses the limit even at best",
    ]);
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
        expect(wider.standardUncertainty).toBeGreaterThanOrEqual(forecast.standardUncertainty - slack);
      }),
    );
  });
});
