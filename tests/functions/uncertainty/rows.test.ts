import { describe, expect, test } from "vitest";
import { uncertaintyBudget } from "../../../src/functions";
import { block, numberOf } from "../../authorities/support/sheet";
import { refusal } from "../errors";
import { type Table, rowOf, value, sensitivity, note, pressures, flows, before, after, base, house } from "./budgets";

const contribution = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[5]);

describe("rows of the table and the settings that make them", () => {
  test("says of each row whether it was assumed, and by which label it is replaced", () => {
    expect(note(house(), "g_e")).toBe('rectangular; assumed; "gauge accuracy" replaces it');
    const given = house({ "gauge accuracy": 0.005 });
    expect(note(given, "g_e")).toBe('rectangular; "gauge accuracy" as given');
    expect(value(given, "g_e")).toBeCloseTo(0.005 / Math.sqrt(3), 15);
    expect(note(house(), "wind_d")).toBe('not counted: give "wind speed"');
    expect(note(house({ "wind speed": 2 }), "wind_d")).toMatch(/as given/);
  });

  test.each([
    ["gauge accuracy", "g_e", 0.03 / Math.sqrt(3)],
    ["gauge zero", "o_e", 0.03 / Math.sqrt(3)],
    ["fan gauge accuracy", "g_f", 0.03 / Math.sqrt(3)],
    ["fan gauge zero", "o_f", 0.03 / Math.sqrt(3)],
    ["flow calibration uncertainty", "gamma_0", 0.03],
    ["opening calibration uncertainty", "gamma_A", 0.03],
    ["fan exponent uncertainty", "m_A", 0.03],
    ["indoor temperature uncertainty", "theta_i", 0.03],
    ["outdoor temperature uncertainty", "theta_e", 0.03],
    ["barometer uncertainty", "p_bar", 0.03],
    ["volume uncertainty", "size", 0.03],
    ["baseline uncertainty", "B1_d", 0.03],
  ])("%s sets %s", (label, symbol, uncertainty) => {
    expect(value(house({ [label]: 0.03 }), symbol)).toBeCloseTo(uncertainty, 14);
  });

  test("where the technique goes by what is stated, both tellings are the same number: the last digit does not choose", () => {
    for (let step = 0; step < 30; step++) {
      const table = uncertaintyBudget(
        "depressurization",
        pressures,
        flows.map(([flow]) => [Number(flow) + step / 7]),
        before,
        after,
        block({
          ...base,
          technique: "weighted organic correlation",
          "pressure uncertainty": 1.5,
          "flow uncertainty": 0.02,
        }),
      ) as Table;
      expect(value(table, "stated_d") / value(table, "scatter_d")).toBeCloseTo(1, 12);
      expect([rowOf(table, "stated_d")[6], rowOf(table, "scatter_d")[7]]).toEqual([0, "∞"]);
    }
  });

  test("degrees of freedom of a stated baseline uncertainty, as LOGSTATIONS gives them; infinite where none are stated", () => {
    const stated = { "baseline uncertainty": 0.15 };
    const known = house({ ...stated, "baseline degrees of freedom": 8.0777 });
    expect([rowOf(known, "B1_d")[7], rowOf(known, "B2_d")[7]]).toEqual([8.0777, 8.0777]);
    expect(rowOf(house(stated), "B1_d")[7]).toBe("∞");
    expect(value(known, "dof_eff")).toBeLessThan(value(house(stated), "dof_eff"));
    expect(refusal(() => house({ ...stated, "baseline degrees of freedom": 0.5 })).message).toMatch(
      /^settings, row 6: baseline degrees of freedom: must be 1 or more/,
    );
  });

  test("humidity, size, stack, wind, pressure and flow uncertainty, fan exponent", () => {
    const read = house({ "indoor humidity": 0.5, "humidity accuracy": 0.03 });
    expect(value(read, "phi_i")).toBeCloseTo(0.03 / Math.sqrt(3), 14);
    expect(value(read, "phi_e")).toBeCloseTo(0.5 / Math.sqrt(3), 14);
    expect(rowOf(house({ "size degrees of freedom": 8 }), "size")[7]).toBe(8);
    expect(rowOf(house(), "size")[0]).toBe("volume");
    expect(value(house({ "building height": 8, "outdoor temperature": 3 }), "stack")).toBeCloseTo(
      (0.1 * 1.2763 * 9.80665 * 8 * (18 / 294.15)) / Math.sqrt(3),
      3,
    );
    const windy = value(house({ "wind speed": 4 }), "wind_d");
    expect(value(house({ "wind speed": 4, "wind coefficient": 2 }), "wind_d")).toBeCloseTo(2 * windy, 12);
    expect(value(house({ "wind speed": 4, "offset share": 0.2 }), "wind_d")).toBeCloseTo(2 * windy, 12);
    expect(sensitivity(house({ "fan exponent": 0.6 }), "g_f")).toBeCloseTo(0.6, 12);
    // A stated flow uncertainty alone reaches ln q through the a_i, whose squares add up to the scatter's over s².
    const stated = house({ "flow uncertainty": 0.02, "gauge resolution": 1e-9 });
    const s = value(house(), "scatter_d");
    expect(value(stated, "stated_d")).toBeGreaterThan(s);
    expect(contribution(stated, "scatter_d")).toBe(0);
    expect(note(stated, "scatter_d")).toBe("contained in the larger random row");
  });

  test("one calibration for both gauges: m − n", () => {
    const table = house({ "gauges of one calibration": "yes" });
    expect(sensitivity(table, "g_e")).toBeCloseTo(0.5 - 0.6493780148, 9);
    expect(value(table, "g_f")).toBe(0);
  });

  test("fan pressures follow from the flows where the lowest is given", () => {
    const table = house({ "fan pressure at lowest flow": 30 });
    expect(sensitivity(table, "o_f")).toBeGreaterThan(0.5 / (30 * (574 / 281) ** 2));
    expect(sensitivity(table, "o_f")).toBeLessThan(0.5 / 30);
    expect(note(house(), "o_f")).toBe('not counted: give "fan pressure at lowest flow"');
    // Moving the pivot by a factor e moves ln q by the error of m, at every pressure.
    const pivoted = [40, 40 * Math.E].map((pivot) =>
      sensitivity(house({ "fan pressure at lowest flow": 30, "pivot fan pressure": pivot }), "m_A"),
    );
    expect(pivoted[0]! - pivoted[1]!).toBeCloseTo(1, 12);
  });

  test("uncertainties beyond all numbers are refused", () => {
    const refused = { code: "#VALUE!", message: "settings: the uncertainties are too large to calculate with" };
    expect(refusal(() => house({ "pressure uncertainty": 1e308 }))).toEqual(refused);
    expect(refusal(() => house({ "gauge zero": 1.7e308 })).message).toMatch(/too large/);
  });

  test("openings by letters, one a reading", () => {
    const table = house({ openings: "aabbc" });
    const sum = ["gamma_A", "gamma_B", "gamma_C"].reduce((total, symbol) => total + sensitivity(table, symbol), 0);
    expect(sum).toBeCloseTo(1, 12);
    expect(sensitivity(table, "gamma_C")).not.toBe(0);
    expect(refusal(() => house({ openings: "AAB" })).message).toMatch(/settings: openings: 3 letters for 5 readings/);
    expect(refusal(() => house({ openings: "AABBD" })).message).toMatch(/letters from A to C/);
  });
});
