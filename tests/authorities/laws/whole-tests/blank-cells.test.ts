import { describe, expect, test } from "vitest";
import { leakageFit } from "../../../../src/functions";
import { valueOf } from "../../support/sheet";
import type { Cell } from "../../support/sheet";
import { compute } from "../../support/sheet-test";
import { type Table, holds, numbersOf } from "./draws";

function steps(count: number): number[] {
  return Array.from({ length: count }, (_, index) => 10 + index / 7 + (index % 3) / 50);
}

describe("blank cells", () => {
  const between = (cells: readonly Cell[], blank: Cell) => [blank, ...cells.flatMap((cell) => [cell, blank])];

  test.each([
    ["null", null],
    ["an empty text", ""],
    ["a blank sent as 0", 0],
  ] as const)("rows of readings that are blank as %s change nothing", (_, blank) => {
    holds((one) => {
      const spaced = { ...one, pressures: between(one.pressures, blank), flows: between(one.flows, blank) };
      expect(compute(spaced)).toEqual(compute(one));
    });
  });

  test.each([
    ["null", null],
    ["an empty text", ""],
  ] as const)("baseline cells that are blank as %s change nothing", (_, blank) => {
    holds((one) => {
      expect(compute({ ...one, before: between(one.before, blank), after: between(one.after, blank) })).toEqual(
        compute(one),
      );
    });
  });

  test("a baseline of 0 is a reading: it changes the mean", () => {
    holds((one) => {
      const before = [...one.before, 0];
      const mean = numbersOf(one.before).reduce((sum, value) => sum + value, 0) / before.length;
      expect(Math.abs(valueOf(compute({ ...one, before }), "dp01") - mean)).toBeLessThan(1e-12);
    });
  });

  test.each([
    ["a pressure without its flow", { flow: null, code: "#N/A" }],
    ["a pressure with a flow of 0", { flow: 0, code: "#VALUE!" }],
  ])("%s is an error that names the row", (_, { flow, code }) => {
    holds((one) => {
      const flows = one.flows.map((cell, index) => (index === 1 ? flow : cell));
      const message = expect.stringMatching(/row 2/) as unknown as string;
      expect(() => compute({ ...one, flows })).toThrow(expect.objectContaining({ code, message }));
    });
  });

  test("settings that are left blank are as if they were not there", () => {
    holds((one) => {
      for (const blank of [null, "", 0]) {
        const settings = {
          ...one.settings,
          "calibration density": blank,
          technique: blank,
          headings: blank,
          confidence: blank,
        };
        expect(compute({ ...one, settings })).toEqual(compute(one));
      }
    });
  });
});

describe("numbers that are not finite never stand in a table, where a host would show them as 0", () => {
  const column = (values: readonly number[]) => values.map((value) => [value]);
  const finite = (table: Table) => table.flat().every((cell) => typeof cell !== "number" || Number.isFinite(cell));

  test.each([
    ["flows near the largest double", [10, 20, 40, 80], [1e307, 1e308, 1.2e308, 1.5e308], 0.95],
    ["pressures that are nearly one", [50, 50.0000001, 50.0000002], [100, 200, 300], 0.95],
    ["a hundred readings and a confidence of 99.9999 %", steps(100), steps(100), 0.999999],
    ["two thousand readings and a confidence of 99.99 %", steps(2000), steps(2000), 0.9999],
  ])("LEAKAGEFIT, %s", (_, pressures, flows, confidence) => {
    let table: Table;
    try {
      table = leakageFit(column(pressures), column(flows), null, [[confidence]]) as Table;
    } catch (error) {
      expect(error).toEqual(expect.objectContaining({ code: "#VALUE!" }));
      return;
    }
    expect(finite(table)).toBe(true);
  });
});
