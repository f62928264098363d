import { describe, expect, test } from "vitest";
import { areaFlow, componentLeakage, leakageArea } from "../../src/functions";
import { expectAgreement } from "./support/compare";
import { authorityTable, numbers } from "./support/files";
import { column, numberOf, single } from "./support/sheet";

const rows = authorityTable("residential-components/component_ela4.csv");

/** An invented house: how many, how many metres or square metres of each, in the order of the table. */
const amounts = [1, 90, 5, 3, 8, 2, 3.4, 2, 1, 64, 60];

describe("NIST, leakage of parts of houses", () => {
  test("every row has a unit that is known, and tight is less than typical", () => {
    const tight = numbers(rows, "tight");
    for (const [index, typical] of numbers(rows, "typical").entries()) {
      expect(tight[index]).toBeGreaterThan(0);
      expect(tight[index]).toBeLessThan(typical);
    }
    const units = new Set(rows.map(({ unit }) => unit));
    expect([...units].sort()).toEqual(["cm2/item", "cm2/m", "cm2/m2"]);
    expect(rows).toHaveLength(amounts.length);
  });

  test.each(["typical", "tight"])("a house of such parts, %s: flow at 50 Pa and back to its leakage area", (grade) => {
    const areas = numbers(rows, grade);
    const leakages = areaFlow(column(areas), "effective 4 Pa", [[0.65]], [[4]]);
    const flow = componentLeakage(column(amounts), leakages, [[4]], [[0.65]]);
    const total = areas.reduce((sum, area, index) => sum + area * amounts[index]!, 0);
    // ASHRAE Fundamentals ch. 16: Q = A·√(2·Δp/ρ) at 4 Pa, written out here.
    const written = 3600 * 1e-4 * total * Math.sqrt(8 / 1.2041) * (50 / 4) ** 0.65;
    expectAgreement(flow, written, 1e-13, "the same sum in another order");
    const back = single(leakageArea([[flow / 50 ** 0.65]], [[0.65]], "effective 4 Pa"));
    expectAgreement(back, total, 1e-13, "there and back");
    expect(numberOf(flow)).toBeGreaterThan(0);
  });
});
