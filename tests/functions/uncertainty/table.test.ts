import { describe, expect, test } from "vitest";
import { methodVersion } from "../../../src/core/index";
import { uncertaintyBudget } from "../../../src/functions";
import { block, numberOf, type Cell } from "../../authorities/support/sheet";
import { refusal } from "../errors";
import { type Table, rowOf, value, sensitivity, note, pressures, flows, before, after, base, house } from "./budgets";

const contribution = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[5]);

describe("the table", () => {
  const symbols = (table: Table) => table.map((row) => row[1]);

  test("has one shape whatever is given; its symbols differ whatever their case", () => {
    const all = symbols(house());
    expect(new Set(all.map((symbol) => String(symbol).toLowerCase())).size).toBe(all.length);
    for (const more of [
      { standard: "ASTM E779" },
      { "wind speed": 14 },
      { "budget quantity": "n" },
      { units: "IP" },
    ] as Record<string, Cell>[]) {
      const table = house(more);
      expect(symbols(table)).toEqual(all);
      expect(table.every((row) => row.length === 11)).toBe(true);
    }
    const headed = house({ headings: "yes" });
    expect(headed[0]).toHaveLength(11);
    expect(symbols(headed).slice(1)).toEqual(all);
  });

  test("closes with the version of the method", () => {
    expect(house().at(-1)?.slice(1, 3)).toEqual(["method", methodVersion]);
  });

  test("the same budget in other units", () => {
    const ip = uncertaintyBudget(
      "depressurization",
      pressures,
      flows.map(([flow]) => [Number(flow) / 1.69901082]),
      before,
      after,
      block({
        volume: 229.2 / 0.028316846592,
        "indoor temperature": 69.8,
        "outdoor temperature": 37.4,
        "flow basis": "actual at the fan",
        units: "IP",
        "outdoor temperature uncertainty": 1.8,
      }),
    );
    expect(value(ip, "u_rel") / value(house(), "u_rel")).toBeCloseTo(1, 8);
    expect(rowOf(ip, "theta_i")[3]).toBe("°F");
    expect(value(ip, "theta_i")).toBeCloseTo(0.9, 12);
    expect(value(ip, "theta_e")).toBeCloseTo(1.8, 12);
    expect(contribution(ip, "theta_e")).toBeCloseTo(contribution(house(), "theta_e"), 9);
    expect(value(ip, "p_bar")).toBeCloseTo(3000 / 3386.389, 6);
    expect(rowOf(ip, "q50")[3]).toBe("cfm");
  });

  test("every result of the test has its interval, the one of its own budget", () => {
    const all = { "envelope area": 354.4, "floor area": 90, "reference pressure": 75 };
    const table = house(all);
    for (const symbol of [
      "n",
      "C",
      "C_L",
      "q50",
      "n50",
      "qE50",
      "qF50",
      "q_pr",
      "n_pr",
      "qE_pr",
      "qF_pr",
      "ELA4",
      "AL10",
      "EqLA10",
    ]) {
      const [row, own] = [rowOf(table, symbol), house({ ...all, "budget quantity": symbol })];
      expect(row[2]).toBe(rowOf(own, "result")[2]);
      expect([row[8], row[9], row[7]]).toEqual([value(own, "lower"), value(own, "upper"), value(own, "dof")]);
      expect(numberOf(row[8])).toBeLessThan(numberOf(row[2]));
    }
    expect(rowOf(house(), "qE50").slice(2, 10)).toEqual(["", "", "", "", "", "", "", ""]);
    // Far below the readings the shape of the curve itself is in doubt.
    for (const [quantity, acts] of [
      ["ELA4", true],
      ["q_pr", true],
      ["q50", false],
      ["C_L", false],
    ] as const) {
      expect(sensitivity(house({ ...all, "budget quantity": quantity }), "model") !== 0).toBe(acts);
    }
  });

  test("without a volume q50 is the result; a result without its input is missing", () => {
    const rest = Object.entries(base).filter(([label]) => label !== "volume");
    const table = uncertaintyBudget("depressurization", pressures, flows, before, after, rest);
    expect(rowOf(table, "quantity")[2]).toBe("q50");
    expect(value(table, "size")).toBe(0);
    const asked = refusal(() => house({ "budget quantity": "qE50" }));
    expect(asked).toMatchObject({ code: "#N/A", message: 'settings: "envelope area" is not given yet; qE50 needs it' });
    expect(refusal(() => house({ "budget quantity": "q_pr" })).message).toMatch(
      /"reference pressure" is not given yet/,
    );
  });

  test("one baseline value only, and none after the test", () => {
    const table = uncertaintyBudget("depressurization", pressures, flows, [[-1.3]], undefined, block(base));
    expect(value(table, "B1_d")).toBe(0.2);
    expect(rowOf(table, "B1_d")[7]).toBe(8);
    expect(sensitivity(table, "B1_d")).toBeCloseTo(-sensitivity(table, "o_e"), 12);
    expect(contribution(table, "B2_d")).toBe(0);
    expect(note(table, "w_missing")).toMatch(/a baseline after the test/);
  });
});
