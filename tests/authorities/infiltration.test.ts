import { describe, expect, test } from "vitest";
import { areaFlow, infiltrationFlow, leakageFlow } from "../../src/functions";
import examples from "./ashrae-infiltration/examples.json";
import tables from "./ashrae-infiltration/tables.json";
import credit from "./infiltration-credit/credit.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import type { Cell } from "./support/sheet";
import { block, single } from "./support/sheet";

const ROUNDINGS = "powers of the same numbers in another order";

/** Flow at 50 Pa, m³/h, of an effective leakage area at 4 Pa. */
const fromArea = (cm2: number, exponent: number) => single(areaFlow([[cm2]], "effective 4 Pa", [[exponent]], [[50]]));

/** Flow at 50 Pa, m³/h, of ASHRAE's c in m³/(s·Pa^n). */
const fromCoefficient = (c: number, exponent: number) => single(leakageFlow([[c * 3600]], [[exponent]], [[50]]));

interface Weather {
  readonly difference: number;
  readonly wind: number;
  readonly exponent?: number;
}

/** m³/s */
const inUse = (
  model: string,
  flow: number,
  { difference, wind, exponent = 0.65 }: Weather,
  house: Record<string, Cell>,
) => single(infiltrationFlow(model, [[flow]], [[exponent]], [[difference]], [[wind]], block(house))) / 3600;

describe("ASHRAE Fundamentals 2021 ch. 16, basic model", () => {
  test.each([
    { ...examples.basic[0]!, storeys: 2, shelter: 3 },
    { ...examples.basic[1]!, storeys: 1, shelter: 4 },
  ])("example of $AL_cm2 cm²", ({ AL_cm2, dT, U, Q_m3s, V, ach, storeys, shelter }) => {
    const house = { storeys, "shelter class": shelter };
    const flow = inUse("basic", fromArea(AL_cm2, 0.65), { difference: dT, wind: U }, house);
    expectPrinted(flow, Q_m3s, 4);
    expectPrinted((flow * 3600) / V, ach, 2);
  });

  test("every coefficient as tabled: stack alone, then wind alone", () => {
    for (const [storeys, tabled] of Object.entries(tables.Cs_basic)) {
      const house = { storeys: Number(storeys), "shelter class": 1 };
      const flow = inUse("basic", fromArea(1000, 0.65), { difference: 1, wind: 0 }, house);
      expectAgreement(flow ** 2, tabled, 1e-12, ROUNDINGS);
    }
    for (const [index, row] of Object.values(tables.Cw_basic).entries()) {
      for (const [storey, tabled] of row.entries()) {
        const house = { storeys: storey + 1, "shelter class": index + 1 };
        const flow = inUse("basic", fromArea(1000, 0.65), { difference: 0, wind: 1 }, house);
        expectAgreement(flow ** 2, tabled, 1e-12, ROUNDINGS);
      }
    }
  });
});

const foundations = { "basement or slab": tables.Cw_enh_slab, "crawl space": tables.Cw_enh_crawl } as const;

describe("ASHRAE Fundamentals 2021 ch. 16, enhanced model", () => {
  const houses = [
    { storeys: 2, "shelter class": 4, flue: "yes", foundation: "basement or slab" },
    { storeys: 1, "shelter class": 4, flue: "no", foundation: "crawl space" },
  ];

  test.each(examples.enhanced.map((example, index) => ({ example, house: houses[index]! })))(
    "example of c = $example.c",
    ({ example, house }) => {
      const { c, n, dT, Umet, Qs, Qw, Q, V, ach } = example;
      const flow = (difference: number, wind: number) =>
        inUse("enhanced", fromCoefficient(c, n), { difference, wind, exponent: n }, house);
      // The handbook cuts the flows of one example (0.0276 to 0.027) where it should have rounded: a whole unit of the last digit.
      for (const [ours, printed] of [
        [flow(dT, 0), Qs],
        [flow(0, Umet), Qw],
        [flow(dT, Umet), Q],
      ] as const) {
        expect(Math.abs(ours - printed)).toBeLessThan(1e-3);
      }
      expectPrinted((flow(dT, Umet) * 3600) / V, ach, 2);
    },
  );

  test("every coefficient as tabled: stack alone, then wind alone", () => {
    const n = 0.7;
    for (const storeys of [1, 2, 3] as const) {
      for (const [flue, column, tableOfStack] of [
        ["no", 0, "noflue"],
        ["yes", 1, "flue"],
      ] as const) {
        for (const [foundation, tabled] of Object.entries(foundations)) {
          const house = { storeys, "shelter class": 1, flue, foundation };
          const stack = inUse("enhanced", fromCoefficient(1, n), { difference: 1, wind: 0, exponent: n }, house);
          expectAgreement(stack, tables.Cs_enh[storeys][tableOfStack], 1e-12, ROUNDINGS);
          for (const [index, shelter] of Object.values(tables.s).entries()) {
            const wind = inUse(
              "enhanced",
              fromCoefficient(1, n),
              { difference: 0, wind: 1, exponent: n },
              { ...house, "shelter class": index + 1 },
            );
            const local = shelter[flue === "yes" ? storeys : 0]! * tables.G[storeys - 1]!;
            expectAgreement(wind, tabled[storeys][column]! * local ** (2 * n), 1e-12, ROUNDINGS);
          }
        }
      }
    }
  });
});

describe("ASHRAE 62.2 against the reduced form of the Standard Work Specifications (NREL)", () => {
  const oneStorey = 8.2;
  const credited = (storeys: number) =>
    single(
      infiltrationFlow("ASHRAE 62.2", [[1200]], null as never, null as never, null as never, [
        ...block({ units: "IP", "floor area": 2000, "building height": storeys * oneStorey }),
        ["weather and shielding factor", 0.6],
      ]),
    );

  test.each(credit.S)("$storeys storeys, S = $S", ({ storeys, S }) => {
    expectAgreement(
      credited(storeys),
      credit.factor * 0.6 * S * 1200,
      0.012,
      "0.052 is printed to two digits, S to three",
    );
    expectPrinted(credited(storeys) / credited(1), S, 2);
  });

  test("NL of 1 is what the standard says it is: one square metre in a thousand at 2.5 m", () => {
    const house = { "floor area": 100, "building height": 2.5 };
    expectAgreement(
      3600 * inUse("normalized leakage", fromArea(1000, 0.65), { difference: 0, wind: 0 }, house),
      1,
      1e-12,
      ROUNDINGS,
    );
  });
});

describe("EN ISO 13789 (from memory) and the rule of twenty", () => {
  const standing = { difference: 0, wind: 0 };
  const changes = (house: Record<string, Cell>) => (3600 * inUse("EN ISO 13789", 0.6 * 500, standing, house)) / 500;

  test.each([
    ["several", "none", 0.1],
    ["several", "moderate", 0.07],
    ["several", "heavy", 0.04],
    ["one", "none", 0.03],
    ["one", "moderate", 0.02],
    ["one", "heavy", 0.01],
  ])("balanced ventilation, %s sides exposed, shielding %s: n50·%d", (sides, shielding, e) => {
    const balanced = { "exposed sides": sides, shielding, "supply flow": 150, "extract flow": 150 };
    expectAgreement(changes(balanced), 0.6 * e, 1e-14, ROUNDINGS);
    expectAgreement(changes({ "exposed sides": sides, shielding }), 0.6 * e, 1e-14, ROUNDINGS);
  });

  test("n50 = 0.6 is 0.042 in use (passive-house practice, no source)", () => {
    expectPrinted(changes({ "exposed sides": "several", shielding: "moderate" }), 0.042, 3);
  });

  test("extract alone draws air in and leaves less to the wind, by hand: 0.021 at (V_s − V_e)² = q50²·e/f", () => {
    const half = 300 * Math.sqrt(0.07 / 15);
    const house = { "exposed sides": "several", shielding: "moderate", "extract flow": half };
    expectAgreement(changes(house), 0.021, 1e-12, ROUNDINGS);
    const oneSide = { "exposed sides": "one", shielding: "moderate", "extract flow": 300 * Math.sqrt(0.02 / 20) };
    expectAgreement(changes(oneSide), 0.006, 1e-12, ROUNDINGS);
  });

  test("n50/20", () => {
    expect(single(infiltrationFlow("n50/20", [[300]]))).toBe(15);
  });
});
