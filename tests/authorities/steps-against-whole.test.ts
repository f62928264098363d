import fc from "fast-check";
import { expect, test } from "vitest";
import {
  airChangeRate,
  airDensity,
  baselinePressure,
  densityCorrection,
  inducedPressure,
  leakageArea,
  leakageCoefficient,
  leakageFit,
  leakageFlow,
  referenceCoefficient,
  specificLeakage,
} from "../../src/functions";
import { expectAgreement } from "./support/compare";
import type { Cell } from "./support/sheet";
import { block, column, numberOf, single, valueOf } from "./support/sheet";
import { compute, sheetTests } from "./support/sheet-test";

type Table = readonly (readonly unknown[])[];

// A reviewer follows a test step by step, each step in its own cell: the last cell must be what the whole-test function gives.

test("the steps in their own cells and TESTRESULT agree", () => {
  fc.assert(
    fc.property(sheetTests, (one) => {
      const table = compute(one);
      const setting = (name: string): Cell[][] => [[one.settings[name] ?? null]];
      const [indoor, outdoor, barometer] = [
        setting("indoor temperature"),
        setting("outdoor temperature"),
        setting("barometric pressure"),
      ];
      const [before, after] = [column(one.before), column(one.after)];
      const agrees = (actual: unknown, symbol: string, tolerance = 1e-13) => {
        expectAgreement(numberOf(actual), valueOf(table, symbol), tolerance, "the same formulas, composed in cells");
      };

      expect(Math.abs(baselinePressure(before, after) - valueOf(table, "dp0"))).toBeLessThan(1e-15);
      const induced = inducedPressure(column(one.pressures), before, after, one.direction);
      const again = inducedPressure(column(one.pressures), [[baselinePressure(before, after)]], null!, one.direction);
      expect(again).toEqual(induced);
      expect(
        induced.every(([pressure]) => Math.sign(numberOf(pressure)) === (one.direction === "pressurization" ? 1 : -1)),
      ).toBe(true);

      const densities = {
        indoor: single(airDensity(indoor, barometer)),
        outdoor: single(airDensity(outdoor, barometer)),
      };
      agrees(densities.indoor, "rho_i");
      agrees(densities.outdoor, "rho_e");
      const atDevice = one.direction === "depressurization" ? densities.indoor : densities.outdoor;
      const throughEnvelope = single(densityCorrection(one.direction, indoor, outdoor, barometer));
      const factor = {
        "through the envelope": 1,
        "actual at the fan": throughEnvelope,
        "indicated at calibration density": Math.sqrt(1.2041 / atDevice) * throughEnvelope,
      }[String(one.settings["flow basis"])];
      agrees(factor, "k_q");

      const flows = column(one.flows.map((flow) => Number(flow) * (factor ?? NaN)));
      const fit = leakageFit(induced, flows) as Table;
      for (const symbol of ["n", "r2", "dof", "t"]) agrees(valueOf(fit, symbol), symbol, 1e-12);
      agrees(leakageCoefficient(induced, flows), "C", 1e-12);

      const exponent = [[valueOf(fit, "n")]];
      const C = [[valueOf(fit, "C")]];
      const settings = block({
        standard: one.settings["standard"] ?? null,
        "barometric pressure": one.settings["barometric pressure"] ?? null,
      });
      const reference = referenceCoefficient(C, exponent, one.direction, indoor, outdoor, settings);
      agrees(single(reference), "C_L", 1e-12);
      const q50 = leakageFlow(reference, exponent, [[50]]);
      agrees(single(q50), "q50", 1e-12);
      agrees(single(airChangeRate(q50, setting("volume"))), "n50", 1e-12);
      agrees(single(specificLeakage(q50, setting("envelope area"))), "qE50", 1e-12);
      agrees(single(leakageArea(reference, exponent, "equivalent 10 Pa")), "EqLA10", 1e-12);
      agrees(single(leakageArea(reference, exponent, "effective 4 Pa")), "ELA4", 1e-12);
    }),
    { seed: 20261124, numRuns: 80 },
  );
});
