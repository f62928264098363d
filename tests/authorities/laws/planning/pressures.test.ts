import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inducedPressure, pressureStations, stackPressure, windPressure } from "../../../../src/functions";
import { expectAgreement } from "../../support/compare";
import { column, numberOf, single } from "../../support/sheet";
import { FIXED, ROUNDINGS, foot, hundredths } from "./draws";

describe("PRESSURESTATIONS", () => {
  test("what the gauge shows, less the baseline, is what was planned: INDUCEDPRESSURE gives the stations again", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 8, max: 25 }),
        fc.integer({ min: 30, max: 90 }),
        fc.integer({ min: 2, max: 20 }),
        hundredths(-6, 6),
        fc.constantFrom("depressurization", "pressurization"),
        (lowest, highest, count, baseline, direction) => {
          const stations = pressureStations([[lowest]], [[highest]], [[count]], direction, [[baseline]]);
          expect(stations).toHaveLength(count);
          const back = inducedPressure(
            column(stations.map((row) => numberOf(row[1]))),
            [[baseline]],
            undefined,
            direction,
          );
          const sign = direction === "depressurization" ? -1 : 1;
          expect([stations[0]?.[0], stations.at(-1)?.[0]]).toEqual([sign * highest, sign * lowest]);
          for (const [index, [induced]] of stations.entries()) {
            expectAgreement(numberOf(back[index]?.[0]), numberOf(induced), 1e-14, "added and taken away again");
            const expected = sign * (highest - (index * (highest - lowest)) / (count - 1));
            expectAgreement(numberOf(induced), expected, 1e-14, ROUNDINGS);
          }
        },
      ),
      FIXED,
    );
  });
});

describe("natural pressures", () => {
  test("odd about the neutral height, no pressure at equal temperatures, the other sign in summer; the same in feet and °F", () => {
    fc.assert(
      fc.property(
        hundredths(2, 40),
        hundredths(0, 1),
        hundredths(15, 25),
        hundredths(-20, 14),
        (height, part, indoor, outdoor) => {
          const at = (z: number) => single(stackPressure([[height]], [[indoor]], [[outdoor]], [[z]]));
          const low = at((part * height) / 2);
          expectAgreement(at(height - (part * height) / 2) - low, -2 * low, 1e-9, "the neutral height is the middle");
          if (part < 1) expect(low).toBeLessThan(0);
          expect(single(stackPressure([[height]], [[indoor]], [[indoor]]))).toBeCloseTo(0, 14);
          expect(single(stackPressure([[height]], [[outdoor]], [[indoor]]))).toBeGreaterThan(0);
          const imperial = stackPressure(
            [[height / foot]],
            [[indoor * 1.8 + 32]],
            [[outdoor * 1.8 + 32]],
            undefined,
            undefined,
            "IP",
          );
          expectAgreement(single(imperial), at(0), 1e-11, "the difference of two temperatures near each other");
        },
      ),
      FIXED,
    );
  });

  test("the wind counts by its square; 10 mph are 4.4704 m/s", () => {
    expectAgreement(single(windPressure([[8]])), 4 * single(windPressure([[4]])), 1e-15, ROUNDINGS);
    expectAgreement(single(windPressure([[10]], "IP")), single(windPressure([[4.4704]])), 1e-15, ROUNDINGS);
    expect(windPressure([[0], [""], [2]])).toEqual([[0], [""], [1.2041 * 2]]);
  });
});
