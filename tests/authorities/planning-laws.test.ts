import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  allowedLeakage,
  areaFlow,
  componentLeakage,
  fanDemand,
  fanFlow,
  heatLoss,
  inducedPressure,
  infiltrationFlow,
  leakageArea,
  pressureStations,
  stackPressure,
  testResult,
  windPressure,
} from "../../src/functions";
import { expectAgreement } from "./support/compare";
import type { Cell } from "./support/sheet";
import { block, column, numberOf, single, valueOf } from "./support/sheet";

const FIXED = { seed: 20261126, numRuns: 60 };
const ROUNDINGS = "a few roundings of 1e-16, some of them in powers";
const foot = 0.3048;
const cfm = foot ** 3 * 60;
const btuPerHour = 1055.05585262 / 3600;

const hundredths = (low: number, high: number) =>
  fc.integer({ min: Math.round(low * 100), max: Math.round(high * 100) }).map((value) => value / 100);

const limits = fc.record({
  target: hundredths(0.1, 12),
  quantity: fc.constantFrom("air change rate", "per envelope area", "per floor area"),
  pressure: fc.constantFrom(4, 10, 50, 75),
  exponent: hundredths(0.5, 1),
  volume: fc.integer({ min: 80, max: 90000 }),
  envelope: fc.integer({ min: 100, max: 30000 }),
  floor: fc.integer({ min: 40, max: 20000 }),
});

const numbersOf = (table: unknown[][]) => (table[0] ?? []).map(numberOf);

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

describe("COMPONENTLEAKAGE and AREAFLOW", () => {
  const lists = fc.array(
    fc.record({
      amount: hundredths(0, 80),
      leakage: hundredths(0.1, 60),
      rated: fc.constantFrom(4, 10, 50, 100),
      exponent: hundredths(0.5, 1),
    }),
    { minLength: 1, maxLength: 8 },
  );

  test("the sum of its rows, each alone, and at the rated pressure the rated leakage", () => {
    fc.assert(
      fc.property(lists, fc.integer({ min: 2, max: 100 }), (list, at) => {
        const total = componentLeakage(
          column([...list.map(({ amount }) => amount), 1]),
          column([...list.map(({ leakage }) => leakage), 1]),
          column([...list.map(({ rated }) => rated), 50]),
          column([...list.map(({ exponent }) => exponent), 0.65]),
          [[at]],
        );
        const rows = list
          .filter(({ amount }) => amount > 0)
          .map(({ amount, leakage, rated, exponent }) =>
            componentLeakage([[amount]], [[leakage]], [[rated]], [[exponent]], [[at]]),
          );
        const last = componentLeakage([[1]], [[1]], [[50]], [[0.65]], [[at]]);
        expectAgreement(total, rows.reduce((sum, row) => sum + row, 0) + last, 1e-14, "the same sum");
        for (const { leakage, rated } of list)
          expect(componentLeakage([[1]], [[leakage]], [[rated]], null as never, [[rated]])).toBe(leakage);
      }),
      FIXED,
    );
  });

  test("AREAFLOW and LEAKAGEAREA undo each other, in every definition and unit system", () => {
    const definitions = fc.constantFrom("effective 4 Pa", "ISO 9972 10 Pa", "equivalent 10 Pa");
    const systems = fc.constantFrom("SI", "SI L/s", "IP");
    fc.assert(
      fc.property(hundredths(1, 900), hundredths(0.5, 1), definitions, systems, (area, exponent, definition, units) => {
        const coefficient = areaFlow([[area]], definition, [[exponent]], [[1]], undefined, undefined, units);
        const back = leakageArea(coefficient, [[exponent]], definition, undefined, undefined, units);
        expectAgreement(single(back), area, 1e-14, ROUNDINGS);
      }),
      FIXED,
    );
  });
});

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
