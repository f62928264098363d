import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { allowedLeakage, leakageArea } from "../../../../src/functions";
import { expectAgreement } from "../../support/compare";
import { block, column, numberOf, single } from "../../support/sheet";
import type { Cell } from "../../support/sheet";
import { FIXED, ROUNDINGS, foot, cfm, hundredths, numbersOf } from "./draws";

const limits = fc.record({
  target: hundredths(0.1, 12),
  quantity: fc.constantFrom("air change rate", "per envelope area", "per floor area"),
  pressure: fc.constantFrom(4, 10, 50, 75),
  exponent: hundredths(0.5, 1),
  volume: fc.integer({ min: 80, max: 90000 }),
  envelope: fc.integer({ min: 100, max: 30000 }),
  floor: fc.integer({ min: 40, max: 20000 }),
});

describe("ALLOWEDLEAKAGE", () => {
  test("each column in the terms of the limit gives the limit back", () => {
    fc.assert(
      fc.property(limits, ({ target, quantity, pressure, exponent, volume, envelope, floor }) => {
        const settings = block({ quantity, "reference pressure": pressure, exponent });
        const sizes: [Cell[][], Cell[][], Cell[][]] = [[[volume]], [[envelope]], [[floor]]];
        const [q50, atLimit, n50, qE50, qF50] = numbersOf(allowedLeakage([[target]], settings, ...sizes));
        const size = { "air change rate": volume, "per envelope area": envelope, "per floor area": floor }[quantity];
        expectAgreement(atLimit! / size, target, 1e-14, ROUNDINGS);
        const rate = { "air change rate": n50, "per envelope area": qE50, "per floor area": qF50 }[quantity];
        expectAgreement(rate! * (pressure / 50) ** exponent, target, 1e-14, ROUNDINGS);
        // The same limit said at 50 Pa, or as a leakage area, allows the same flow.
        const at50 = allowedLeakage([[rate!]], block({ quantity, exponent }), ...sizes);
        expectAgreement(numbersOf(at50)[0]!, q50!, 1e-14, ROUNDINGS);
      }),
      FIXED,
    );
  });

  test("a limit as a leakage area per envelope area is the leakage area again, by each definition", () => {
    fc.assert(
      fc.property(limits, ({ target, exponent, envelope }) => {
        for (const [index, definition] of ["effective 4 Pa", "ISO 9972 10 Pa", "equivalent 10 Pa"].entries()) {
          const quantity = "leakage area per envelope area";
          const settings = block({ quantity, "leakage area definition": definition, exponent });
          const row = numbersOf(allowedLeakage([[target]], settings, [[1]], [[envelope]], [[1]]));
          expectAgreement(row[5 + index]!, target * envelope, 1e-13, ROUNDINGS);
          const area = single(leakageArea([[row[0]! / 50 ** exponent]], [[exponent]], definition));
          expectAgreement(area, target * envelope, 1e-13, ROUNDINGS);
        }
      }),
      FIXED,
    );
  });

  test("a table of sizes is what the rows give one by one, in proportion to the target", () => {
    fc.assert(
      fc.property(limits, fc.array(limits, { minLength: 2, maxLength: 6 }), ({ target, quantity, pressure }, list) => {
        const settings = block({ quantity, "reference pressure": pressure });
        const columns = ["volume", "envelope", "floor"].map((name) =>
          column(list.map((sizes) => sizes[name as "volume"])),
        ) as [Cell[][], Cell[][], Cell[][]];
        const table = allowedLeakage([[target]], settings, ...columns);
        const twice = allowedLeakage([[2 * target]], settings, ...columns);
        for (const [index, { volume, envelope, floor }] of list.entries()) {
          const alone = allowedLeakage([[target]], settings, [[volume]], [[envelope]], [[floor]]);
          expect(table[index]).toEqual(alone[0]);
          for (const [place, cell] of (table[index] ?? []).entries())
            expectAgreement(numberOf(twice[index]?.[place]), 2 * numberOf(cell), 1e-15, "a factor of two is exact");
        }
      }),
      FIXED,
    );
  });

  test("in cfm, ft³, ft² and in² it is the same limit", () => {
    fc.assert(
      fc.property(limits, ({ target, quantity, pressure, exponent, volume, envelope, floor }) => {
        const settings = { quantity, "reference pressure": pressure, exponent };
        const metric = numbersOf(allowedLeakage([[target]], block(settings), [[volume]], [[envelope]], [[floor]]));
        const limit = quantity === "air change rate" ? target : (target / cfm) * foot ** 2;
        const squareFeet = [envelope, floor].map((area) => [[area / foot ** 2]]) as [number[][], number[][]];
        const imperial = numbersOf(
          allowedLeakage([[limit]], block({ ...settings, units: "IP" }), [[volume / foot ** 3]], ...squareFeet),
        );
        const perArea = cfm / foot ** 2;
        const factors = [cfm, cfm, 1, perArea, perArea, 2.54 ** 2, 2.54 ** 2, 2.54 ** 2];
        for (const [index, factor] of factors.entries())
          expectAgreement(imperial[index]! * factor, metric[index]!, 1e-13, ROUNDINGS);
      }),
      FIXED,
    );
  });
});
