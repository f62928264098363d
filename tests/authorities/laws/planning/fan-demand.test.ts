import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fanDemand, fanFlow, testResult } from "../../../../src/functions";
import { expectAgreement } from "../../support/compare";
import { block, column, single, valueOf } from "../../support/sheet";
import { FIXED, ROUNDINGS, hundredths } from "./draws";

describe("FANDEMAND", () => {
  const houses = fc.record({
    target: hundredths(0.3, 8),
    volume: fc.integer({ min: 150, max: 5000 }),
    exponent: hundredths(0.5, 0.9),
    indoor: fc.integer({ min: 15, max: 26 }),
    outdoor: fc.integer({ min: -20, max: 35 }),
    barometer: fc.integer({ min: 80000, max: 104000 }),
    standard: fc.constantFrom("ISO 9972", "ASTM E779"),
    calibration: hundredths(1.15, 1.25),
  });

  test("a test whose flows are the demand at each station gives the expected n50 and exponent", () => {
    fc.assert(
      fc.property(houses, ({ target, volume, exponent, indoor, outdoor, barometer, standard, calibration }) => {
        const given = {
          volume,
          "indoor temperature": indoor,
          "outdoor temperature": outdoor,
          "barometric pressure": barometer,
          standard,
          "calibration density": calibration,
        };
        const settings = block({ ...given, quantity: "air change rate", exponent });
        const stations = [60, 50, 40, 30, 20];
        for (const [direction, key, sign] of [
          ["depressurization", "dep", -1],
          ["pressurization", "pres", 1],
        ] as const) {
          const readings = column(stations.map((station) => sign * station));
          for (const [basis, symbol] of [
            ["indicated at calibration density", "q_ind"],
            ["actual at the fan", "q_fan"],
            ["through the envelope", "q_env"],
          ] as const) {
            const flows = column(
              stations.map((station) => valueOf(fanDemand([[target]], [[station]], settings), `${symbol}_${key}`)),
            );
            const result = testResult(
              direction,
              readings,
              flows,
              [[0]],
              [[0]],
              block({ ...given, "flow basis": basis }),
            );
            expectAgreement(valueOf(result, "n50"), target, 1e-11, "a fit through five exact points");
            expectAgreement(valueOf(result, "n"), exponent, 1e-11, "a fit through five exact points");
          }
        }
      }),
      { ...FIXED, numRuns: 15 },
    );
  });

  test("the opening named gives the flow at the fan pressure named, inside its range; a larger one would work at a lower fan pressure", () => {
    const openings = [
      ["large", 60, 0.5, 20, 300],
      ["middle", 25, 0.51, 20, 300],
      ["small", 8, 0.52, 20, 300],
    ];
    const base = { "indoor temperature": 21, "outdoor temperature": 3, quantity: "air change rate" };
    fc.assert(
      fc.property(houses, ({ target, volume }) => {
        const table = fanDemand([[target]], [[60]], block({ ...base, volume }), openings);
        for (const key of ["dep", "pres"]) {
          const name: unknown = table.find((row) => row[1] === `opening_${key}`)?.[2];
          const demand = valueOf(table, `q_ind_${key}`);
          const reach = openings.filter(([, c, m]) => {
            const [low, high] = [20, 300].map((pressure) => (c as number) * pressure ** (m as number));
            return demand >= low! && demand <= high!;
          });
          expect(name).toBe(reach.at(-1)?.[0] ?? "none");
          if (name === "none") continue;
          const [, c, m, low, high] = reach.at(-1) as [string, number, number, number, number];
          const fanPressure = [[valueOf(table, `p_fan_${key}`)]];
          const flow = single(fanFlow(fanPressure, [[c]], [[m]], [[low]], [[high]]));
          expectAgreement(flow, demand, 1e-13, ROUNDINGS);
        }
      }),
      FIXED,
    );
  });
});
