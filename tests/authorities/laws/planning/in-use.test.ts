import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { heatLoss, infiltrationFlow } from "../../../../src/functions";
import { expectAgreement } from "../../support/compare";
import { block, column, single } from "../../support/sheet";
import type { Cell } from "../../support/sheet";
import { FIXED, ROUNDINGS, foot, cfm, hundredths, numbersOf } from "./draws";

const btuPerHour = 1055.05585262 / 3600;

describe("INFILTRATIONFLOW and HEATLOSS", () => {
  const house: Record<string, Cell> = {
    storeys: 2,
    "shelter class": 3,
    flue: "yes",
    foundation: "crawl space",
    "exposed sides": "several",
    shielding: "moderate",
    "supply flow": 80,
    "extract flow": 120,
    "floor area": 140,
    "building height": 5.4,
    "weather and shielding factor": 0.5,
  };
  const imperialHouse = {
    ...house,
    "supply flow": 80 / cfm,
    "extract flow": 120 / cfm,
    "floor area": 140 / foot ** 2,
    "building height": 5.4 / foot,
    units: "IP",
  };
  const models = ["n50/20", "basic", "enhanced", "EN ISO 13789", "ASHRAE 62.2", "normalized leakage"] as const;

  test.each(models)(
    "%s: leakier is more, colder and windier is not less, and cfm, °F and mph say the same",
    (model) => {
      fc.assert(
        fc.property(
          hundredths(50, 4000),
          hundredths(0.5, 0.9),
          hundredths(0, 45),
          hundredths(0, 12),
          (flow, n, difference, wind) => {
            const inUse = (q: number, dT: number, U: number) =>
              single(infiltrationFlow(model, [[q]], [[n]], [[dT]], [[U]], block(house)));
            const it = inUse(flow, difference, wind);
            if (difference + wind > 0) expect(inUse(1.1 * flow, difference, wind)).toBeGreaterThan(it);
            expect(inUse(flow, difference + 5, wind)).toBeGreaterThanOrEqual(it);
            expect(inUse(flow, difference, wind + 2)).toBeGreaterThanOrEqual(it);
            expect(inUse(flow, -difference, wind)).toBe(it);
            const weather: [Cell[][], Cell[][]] = [[[difference * 1.8]], [[(wind * 3600) / 1609.344]]];
            const imperial = single(infiltrationFlow(model, [[flow / cfm]], [[n]], ...weather, block(imperialHouse)));
            expectAgreement(imperial * (model === "normalized leakage" ? 1 : cfm), it, 1e-12, ROUNDINGS);
          },
        ),
        FIXED,
      );
    },
  );

  test("a year of hours in one call is the hours one by one", () => {
    const hours = Array.from({ length: 50 }, (_, index) => ({ dT: index / 2 - 3, U: (index * 7) % 9 }));
    const series = [column(hours.map(({ dT }) => dT)), column(hours.map(({ U }) => U))] as const;
    const table = infiltrationFlow("basic", [[600]], [[0.65]], ...series, block(house));
    for (const [index, { dT, U }] of hours.entries())
      expect(table[index]).toEqual(infiltrationFlow("basic", [[600]], [[0.65]], [[dT]], [[U]], block(house))[0]);
  });

  test("heat: in proportion to flow, difference and degree hours; the same in Btu", () => {
    fc.assert(
      fc.property(
        hundredths(1, 900),
        hundredths(-20, 60),
        fc.integer({ min: 1000, max: 150000 }),
        (flow, difference, hours) => {
          const [H, power, energy] = numbersOf(heatLoss([[flow]], [[difference]], [[hours]]));
          expectAgreement(power!, H! * difference, 1e-14, ROUNDINGS);
          expectAgreement(energy!, (H! * hours) / 1000, 1e-14, ROUNDINGS);
          const imperial = heatLoss([[flow / cfm]], [[difference * 1.8]], [[hours * 1.8]], undefined, "IP");
          const [itsH, itsPower, itsEnergy] = numbersOf(imperial);
          expectAgreement(itsH! * btuPerHour * 1.8, H!, 1e-13, ROUNDINGS);
          expectAgreement(itsPower! * btuPerHour, power!, 1e-13, ROUNDINGS);
          expectAgreement(itsEnergy! * btuPerHour, energy!, 1e-13, ROUNDINGS);
          const litres = numbersOf(heatLoss([[flow / 3.6]], [[difference]], [[hours]], undefined, "SI L/s"));
          expectAgreement(litres[0]!, H!, 1e-14, ROUNDINGS);
        },
      ),
      FIXED,
    );
  });
});
