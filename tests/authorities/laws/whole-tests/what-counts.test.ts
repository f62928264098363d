import { describe, expect, test } from "vitest";
import { leakageFit } from "../../../../src/functions";
import { expectAgreement } from "../../support/compare";
import { limitsOf, valueOf } from "../../support/sheet";
import { compute } from "../../support/sheet-test";
import { ROUNDING, type Table, withLimits, holds, numbersOf } from "./draws";

describe("what counts", () => {
  test("several fans add by row, and a fan that was never used is no fan", () => {
    holds((one) => {
      const pressures = one.pressures.map((pressure) => [Math.abs(Number(pressure))]);
      const flows = numbersOf(one.flows);
      const alone = leakageFit(
        pressures,
        flows.map((flow) => [flow]),
      ) as Table;
      const twoFans = leakageFit(
        pressures,
        flows.map((flow) => [0.25 * flow, 0.75 * flow, null]),
      ) as Table;
      for (const symbol of ["C", "n", "r2", "q50"]) {
        expectAgreement(valueOf(twoFans, symbol), valueOf(alone, symbol), 1e-11, ROUNDING);
      }
    });
  });

  test("a reading that is not included is as if it were not there, but is counted in the words of N", () => {
    holds((one) => {
      const odd = one.direction === "depressurization" ? -33.3 : 33.3;
      const include = [...one.pressures.map(() => "yes"), "no"];
      const table = compute({ ...one, pressures: [...one.pressures, odd], flows: [...one.flows, 7], include });
      const plain = compute(one);
      expect(table.filter((row) => row[1] !== "count")).toEqual(plain.filter((row) => row[1] !== "count"));
      const row = table.find((cells) => cells[1] === "count");
      expect(row?.[0]).toContain(`${one.pressures.length} of ${one.pressures.length + 1}`);
    });
  });

  test("equal air on both sides: the flow at the fan is the flow through the envelope", () => {
    holds((one) => {
      const settings = {
        ...one.settings,
        "indoor temperature": 15,
        "outdoor temperature": 15,
        "flow basis": "actual at the fan",
      };
      expect(valueOf(compute({ ...one, settings }), "k_q")).toBe(1);
    });
  });

  test("a larger confidence widens the limits and leaves the values", () => {
    holds((one) => {
      const at = (confidence: number) => compute({ ...one, settings: { ...one.settings, confidence } });
      const [narrow, wide] = [at(0.9), at(0.99)];
      for (const symbol of withLimits) {
        expect(valueOf(wide, symbol)).toBe(valueOf(narrow, symbol));
        expect(limitsOf(wide, symbol).upper).toBeGreaterThan(limitsOf(narrow, symbol).upper);
        expect(limitsOf(wide, symbol).lower).toBeLessThan(limitsOf(narrow, symbol).lower);
      }
    });
  });
});
