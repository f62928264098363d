import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { techniques } from "../../../src/core";
import { uncertaintyBudget } from "../../../src/functions";
import { sheetTests } from "../../authorities/support/sheet-test";
import { block, column as columnOf } from "../../authorities/support/sheet";
import { type Table, value, sensitivity, house } from "./budgets";
import { slow } from "../../time-outs";

describe(
  "the guide's house against a budget worked out apart: plain Python, central differences of the whole calculation",
  { timeout: slow },
  () => {
    const table = house();
    test.each([
      ["g_e", 0.005773502691896258, -0.649378014961551],
      ["o_e", 0.05773502691896258, 0.014197641643170408],
      ["g_f", 0.005773502691896258, 0.4999999997721954],
      ["m_A", 0.003, 0.30555370678086996],
      ["theta_i", 0.5, -0.0018429260162378114],
      ["theta_e", 1, 0.0024167601608837685],
      ["p_bar", 3000, -1.4603246419516345e-6],
      ["phi_i", 0.2886751345948129, -0.004662609687090227],
      ["size", 0.02, -1.0000000001397777],
      ["B1_d", 0.11547005383792519, -0.007098820821585203],
      ["B_d", 0.03333333333333321, -0.014197641595714624],
      ["drift_d", 0.11547005383792514, -0.0016294469773470216],
    ])("%s", (symbol, uncertainty, derivative) => {
      expect(value(table, symbol) / uncertainty).toBeCloseTo(1, 10);
      expect(sensitivity(table, symbol) / derivative).toBeCloseTo(1, 7);
    });

    test("combined", () => {
      expect(value(table, "u_rel")).toBeCloseTo(0.0279483212785, 10);
      expect(value(table, "dof_eff") / 190.5020768258345).toBeCloseTo(1, 7);
      expect(value(table, "dof")).toBe(190);
      expect(value(table, "scatter_d")).toBeCloseTo(0.001620677648950499, 11);
    });
  },
);

test(
  "every random test has a budget of finite cells whose shares are parts of a whole, whatever the technique",
  { timeout: slow },
  () => {
    fc.assert(
      fc.property(sheetTests, fc.constantFrom(...techniques), (made, technique) => {
        const table = uncertaintyBudget(
          made.direction,
          columnOf(made.pressures),
          columnOf(made.flows),
          columnOf(made.before),
          columnOf(made.after),
          block({ ...made.settings, technique, "pressure uncertainty": 0.5, "flow uncertainty": 0.01 }),
        );
        for (const cell of table.flat()) expect(typeof cell === "string" || Number.isFinite(cell)).toBe(true);
        const shares = (table as Table).map((row) => row[6]).filter((share) => typeof share === "number");
        expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThan(1e-9);
        expect(value(table, "lower")).toBeLessThan(value(table, "result"));
        expect(value(table, "upper")).toBeGreaterThan(value(table, "result"));
      }),
      { numRuns: 60 },
    );
  },
);
