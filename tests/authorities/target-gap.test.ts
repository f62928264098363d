import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { holeDiameter, targetGap, type TargetTerms } from "../../src/core";
import dm4bem from "./dm4bem/readings.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import arithmetic from "./trade-practice/arithmetic.json";

const rate: TargetTerms = { quantity: "air change rate" };

describe("a hole that one could find", () => {
  test("30 m³/h at 50 Pa with C_d 0.6 is 15 cm² (common practice, no source)", () => {
    const { flow_m3_per_h, area_cm2 } = arithmetic.real_hole;
    const gap = targetGap(1000 + flow_m3_per_h, 1, rate, { volume: 1000 });
    expectPrinted(gap.toRemove, flow_m3_per_h, 9);
    expectPrinted(1e4 * gap.realArea, area_cm2, 0);
  });

  test("diameter of a published leakage area (Ghiaus, dm4bem tutorial A06): 159.9 cm² is 14.3 cm", () => {
    const { ELA10_cm2, equivalent_diameter_cm } = dm4bem.published;
    expectPrinted(100 * holeDiameter(ELA10_cm2 / 1e4), equivalent_diameter_cm, 1);
  });

  test("the hole of a diameter has that diameter, and a real hole is wider than the leakage area by 1/√C_d", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (tenths) => {
        const diameter = tenths / 1e4;
        expectAgreement(holeDiameter((Math.PI / 4) * diameter ** 2), diameter, 1e-14, "a root and a square");
        expectAgreement(holeDiameter(1, 0.6) / holeDiameter(1), 1 / Math.sqrt(0.6), 1e-14, "a root");
      }),
    );
  });
});

describe("the gap to a limit", () => {
  test("270 m³/h too much are 56, 65 or 106 cm² by definition (common practice, no source)", () => {
    const { q50_m3_per_h, n, effective_4_Pa_cm2, iso_10_Pa_cm2, equivalent_10_Pa_cm2 } = arithmetic.leakage_areas;
    const { leakageAreas } = targetGap(600 + q50_m3_per_h, 2, rate, { volume: 300 }, n);
    expectPrinted(1e4 * leakageAreas["effective 4 Pa"], effective_4_Pa_cm2, 0);
    expectPrinted(1e4 * leakageAreas["ISO 9972 10 Pa"], iso_10_Pa_cm2, 0);
    expectPrinted(1e4 * leakageAreas["equivalent 10 Pa"], equivalent_10_Pa_cm2, 0);
  });

  test("0.25 cfm/ft² at 75 Pa allows 0.192 cfm/ft² at 50 Pa (US Army Corps limit, n 0.65)", () => {
    const { limit_cfm_per_ft2, at_Pa, n, equivalent_at_50_Pa } = arithmetic.limit_at_another_pressure;
    const perMetric = 0.3048 ** 3 / 60 / 0.3048 ** 2;
    const terms: TargetTerms = { quantity: "per envelope area", pressure: at_Pa };
    const limit = limit_cfm_per_ft2 * perMetric * 3600;
    const { allowed, inQuantity } = targetGap(500, limit, terms, { envelopeArea: 100 }, n);
    expectPrinted(allowed / 100 / perMetric / 3600, equivalent_at_50_Pa, 3);
    expectAgreement(inQuantity, 5 * 1.5 ** n, 1e-12, "(75/50)^n");
  });

  test("a leakage area of 0.7 cm²/m², 10 Pa, C_d 0.611, by the orifice equation written out", () => {
    const terms: TargetTerms = { quantity: "leakage area per envelope area", definition: "equivalent 10 Pa" };
    const at10 = 0.7e-4 * 350 * 0.611 * Math.sqrt((2 * 10) / 1.2041) * 3600;
    expectAgreement(targetGap(500, 0.7, terms, { envelopeArea: 350 }).allowed, at10 * 5 ** 0.65, 1e-4, "ρ0 rounded");
  });

  test("at the limit it is met with nothing in hand, in binary numbers too: 0.6 × 3 against 1.8", () => {
    expect(0.6 * 3).not.toBe(1.8);
    for (const [flow, volume] of [
      [1.8, 3],
      [0.6 * 3, 3],
      [1.8 * (1 + 5e-10), 3],
    ] as const) {
      const gap = targetGap(flow, 0.6, rate, { volume });
      expect(gap).toMatchObject({ isMet: true, toRemove: 0, realDiameter: 0 });
      expect(gap.inHand).toBeLessThan(1e-9);
    }
    expect(targetGap(1.8 * (1 + 2e-9), 0.6, rate, { volume: 3 }).isMet).toBe(false);
  });

  test("what is removed leaves exactly the limit, and a stricter limit asks for more", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 9000 }),
        fc.integer({ min: 50, max: 5000 }),
        fc.integer({ min: 2, max: 80 }),
        (flow, volume, tenths) => {
          const limit = tenths / 10;
          const gap = targetGap(flow, limit, rate, { volume });
          expectAgreement(flow - gap.toRemove + gap.inHand, gap.allowed, 1e-12, "a sum");
          expect(gap.toRemove === 0 || gap.inHand === 0).toBe(true);
          const stricter = targetGap(flow, limit / 2, rate, { volume });
          expect(stricter.toRemove).toBeGreaterThanOrEqual(gap.toRemove);
          expect(stricter.inHand).toBeLessThanOrEqual(gap.inHand);
        },
      ),
    );
  });
});
