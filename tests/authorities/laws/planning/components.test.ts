import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { areaFlow, componentLeakage, leakageArea } from "../../../../src/functions";
import { expectAgreement } from "../../support/compare";
import { column, single } from "../../support/sheet";
import { FIXED, ROUNDINGS, hundredths } from "./draws";

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
