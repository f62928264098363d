import { describe, expect, test } from "vitest";
import {
  airChangeRate,
  allowedLeakage,
  areaFlow,
  componentLeakage,
  convertUnits,
  heatLoss,
  stackPressure,
  windPressure,
} from "../../src/functions";
import classes from "./en-12207/classes.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import { block, column, numberOf, single } from "./support/sheet";
import arithmetic from "./trade-practice/arithmetic.json";

const at = (table: unknown[][], index: number, row = 0) => numberOf(table[row]?.[index]);
const [q50, atLimit, n50, qE50] = [0, 1, 2, 3];
const areas = [5, 6, 7] as const;

describe("ALLOWEDLEAKAGE", () => {
  test("0.25 cfm/ft² at 75 Pa is 0.192 at 50 Pa with n = 0.65 (US Army Corps; arithmetic)", () => {
    const { limit_cfm_per_ft2, at_Pa, n, equivalent_at_50_Pa } = arithmetic.limit_at_another_pressure;
    const settings = { quantity: "per envelope area", "reference pressure": at_Pa, exponent: n, units: "IP" };
    const table = allowedLeakage([[limit_cfm_per_ft2]], block({ ...settings, "envelope area": 20000 }));
    expectPrinted(at(table, qE50), equivalent_at_50_Pa, 3);
    expectAgreement(at(table, atLimit), 5000, 1e-14, "0.25·20 000 cfm");
  });

  test("270 m³/h is 56, 65 or 106 cm² by definition (common practice, no source)", () => {
    const { q50_m3_per_h, n, effective_4_Pa_cm2, iso_10_Pa_cm2, equivalent_10_Pa_cm2 } = arithmetic.leakage_areas;
    const settings = block({ quantity: "air change rate", volume: 450, exponent: n });
    const table = allowedLeakage([[q50_m3_per_h / 450]], settings);
    expectAgreement(at(table, q50), q50_m3_per_h, 1e-14, "one division, one multiplication");
    for (const [index, printed] of [effective_4_Pa_cm2, iso_10_Pa_cm2, equivalent_10_Pa_cm2].entries())
      expectPrinted(at(table, areas[index]!), printed, 0);
  });

  test("0.7 cm²/m² at 10 Pa (R-2000, from memory) over 350 m² is a leakage area of 245 cm² by the same definition", () => {
    const settings = { quantity: "leakage area per envelope area", "leakage area definition": "equivalent 10 Pa" };
    const table = allowedLeakage([[0.7]], block({ ...settings, "envelope area": 350 }));
    expectAgreement(at(table, areas[2]), 245, 1e-13, "0.7·350 cm²");
  });

  test("0.6·V over a table of volumes, and AIRCHANGERATE gives the target again", () => {
    const volumes = column([300, 400, 450, 512]);
    const table = allowedLeakage([[0.6]], block({ quantity: "air change rate" }), volumes);
    const flows = table.map((_, row) => at(table, q50, row));
    expect(flows).toEqual([180, 240, 270, 0.6 * 512]);
    const rates = airChangeRate(column(flows), volumes);
    for (const [index, [rate]] of rates.entries()) {
      expectAgreement(numberOf(rate), 0.6, 2e-16, "a product divided again");
      expect(table[index]?.[n50]).toBe(rate);
    }
  });
});

describe("COMPONENTLEAKAGE: EN 12207", () => {
  test.each(classes)("class $class at 50 Pa", (row) => {
    expectPrinted(componentLeakage([[1]], [[row.per_area_100_Pa]], [[100]]), row.per_area_50_Pa, 1);
    expectPrinted(componentLeakage([[1]], [[row.per_joint_100_Pa]], [[100]]), row.per_joint_50_Pa, 2);
    expectAgreement(row.per_joint_100_Pa * 4, row.per_area_100_Pa, 1e-15, "the standard's two columns stand 1 to 4");
  });
});

test("a hole that one could find, C_d 0.6 at 50 Pa: 30 m³/h is 15 cm² (common practice, no source)", () => {
  const perArea = single(areaFlow([[1]], "custom", [[0.5]], [[50]], [[50]], [[0.6]]));
  expectPrinted(30 / perArea, 15, 0);
});

describe("natural pressures", () => {
  test("8 m at 20 and 0 °C: −3.5 Pa at the ground, +3.5 Pa under the roof (recomputed)", () => {
    const { height_m, indoor_C, outdoor_C, at_the_ground_Pa } = arithmetic.stack;
    expectPrinted(single(stackPressure([[height_m]], [[indoor_C]], [[outdoor_C]])), at_the_ground_Pa, 1);
    const top = single(stackPressure([[height_m]], [[indoor_C]], [[outdoor_C]], [[height_m]]));
    expectPrinted(top, -at_the_ground_Pa, 1);
  });

  test("0.04 Pa for each metre and kelvin (ASHRAE's rule of thumb, from memory)", () => {
    expectPrinted(single(stackPressure([[1]], [[20.5]], [[19.5]], [[1]], [[0]])), 0.04, 2);
  });

  test("½·ρ·U² is 0.602·U² (ASHRAE Fundamentals ch. 24 with ρ = 1.204), 21.7 Pa at 6 m/s", () => {
    expectPrinted(single(windPressure([[1]])), 0.602, 3);
    expectPrinted(single(windPressure([[6]])), 21.7, 1);
  });
});

describe("HEATLOSS", () => {
  test("1.08 Btu/h for each cfm and °F (ASHRAE's sensible heat factor) lies in the 0.33 to 0.34 Wh/(m³·K) of the standards", () => {
    const low = at(heatLoss([[1]], undefined, undefined, [[1.08]], "IP"), 0);
    expectAgreement(low, 1.08, 1e-15, "the factor itself");
    const [from, to] = [0.33, 0.34].map((c) => {
      const watts = single(convertUnits([[c * 0.3048 ** 3 * 60]], "W", "Btu/h"));
      return watts / 1.8;
    });
    expect(1.08).toBeGreaterThan(from!);
    expect(1.08).toBeLessThan(to!);
    expectAgreement(at(heatLoss([[1]], undefined, undefined, undefined, "IP"), 0), to!, 1e-14, "0.34 in IP units");
  });

  test("ρ·c_p of the reference air, 1.2041·1006/3600, lies between them too", () => {
    expect(heatLoss([[1]], undefined, undefined, [[(1.2041 * 1006) / 3600]])[0]?.[0]).toBeGreaterThan(0.33);
    expect((1.2041 * 1006) / 3600).toBeLessThan(0.34);
  });

  test("30 m³/h over 3 500 degree days: 10.2 W/K, 204 W at 20 K, 857 kWh (by hand)", () => {
    const [row] = heatLoss([[30]], [[20]], [[3500 * 24]]);
    expect(row?.map((cell) => Number(numberOf(cell).toPrecision(12)))).toEqual([10.2, 204, 856.8]);
  });
});
