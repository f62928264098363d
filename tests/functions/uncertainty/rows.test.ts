import { describe, expect, test } from "vitest";
import { testResult, uncertaintyBudget } from "../../../src/functions";
import { block, numberOf, type Cell } from "../../authorities/support/sheet";
import { refusal } from "../errors";
import { type Table, rowOf, value, sensitivity, note, pressures, flows, before, after, base, house } from "./budgets";

const contribution = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[5]);

/** a_i of one reading: what ln q50 gains per unit of ln q_i, from two budgets' own results. */
const shareOf = (index: number) => {
  const step = 1e-6;
  const at = (factor: number) =>
    Math.log(
      value(
        uncertaintyBudget(
          "depressurization",
          pressures,
          flows.map(([flow], row) => [Number(flow) * (row === index ? factor : 1)]),
          before,
          after,
          block(base),
        ) as Table,
        "result",
      ),
    );
  return (at(1 + step) - at(1 - step)) / (2 * step);
};

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

  test("noise of a reading: as stated, else from the baseline's own readings, else assumed; the table says which", () => {
    expect(value(house(), "u_P")).toBeCloseTo(0.2, 12);
    expect(note(house(), "u_P")).toBe('from the scatter of the baseline; "pressure uncertainty"');
    expect([value(house(), "u_q"), note(house(), "u_q")]).toEqual([0.005, 'assumed; "flow uncertainty"']);
    const stated = house({ "pressure uncertainty": 1.5, "flow uncertainty": 0.02 });
    expect([value(stated, "u_P"), value(stated, "u_q"), value(stated, "kappa")]).toEqual([1.5, 0.02, 1]);
    expect(note(stated, "u_P")).toBe('as given; "pressure uncertainty"');
    expect([value(stated, "stated_d"), rowOf(stated, "scatter_d")[7]]).toEqual([value(stated, "scatter_d"), "∞"]);
    const averaged = uncertaintyBudget("depressurization", pressures, flows, [[-1.4]], [[-1.2]], block(base)) as Table;
    expect([value(averaged, "u_P"), value(averaged, "u_q")]).toEqual([1, 0.01]);
    expect(note(averaged, "u_P")).toMatch(/^assumed/);
  });

  test("baselines before and after have uncertainties and degrees of freedom of their own", () => {
    const apart = house({
      "baseline uncertainty": 0.3,
      "baseline degrees of freedom": 9,
      "baseline after uncertainty": 0.15,
      "baseline after degrees of freedom": 4,
    });
    expect([value(apart, "B1_d"), rowOf(apart, "B1_d")[7]]).toEqual([0.3, 9]);
    expect([value(apart, "B2_d"), rowOf(apart, "B2_d")[7]]).toEqual([0.15, 4]);
    expect(note(apart, "B1_d")).toBe('normal; "baseline uncertainty" as given');
    expect(note(apart, "B2_d")).toBe('normal; "baseline after uncertainty" as given');
    expect(note(house(), "B1_d")).toMatch(/^normal; from its readings, taken as independent: too few to tell/);
  });

  test("the allowance beyond the readings: as given, or none", () => {
    const at4 = { "budget quantity": "ELA4" };
    expect(value(house(at4), "model")).toBeCloseTo(0.095 / Math.sqrt(3), 14);
    expect(value(house({ ...at4, "extrapolation allowance": 0.05 }), "model")).toBeCloseTo(0.05 / Math.sqrt(3), 14);
    expect(value(house({ ...at4, "extrapolation allowance": "none" }), "model")).toBe(0);
    expect(refusal(() => house({ "extrapolation allowance": "off" })).message).toMatch(
      /^settings, row 5: extrapolation allowance: a number is needed, or the word "none" \(got off\)$/,
    );
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
    const tested = testResult("depressurization", pressures, flows, before, after, block(base)) as Table;
    expect(value(house({ "building height": 8, "outdoor temperature": 3 }), "stack")).toBeCloseTo(
      (0.1 * 9.80665 * 8 * (value(tested, "rho_e") - value(tested, "rho_i"))) / Math.sqrt(3),
      12,
    );
    const windy = value(house({ "wind speed": 4 }), "wind_d");
    expect(value(house({ "wind speed": 4, "wind coefficient": 2 }), "wind_d")).toBeCloseTo(2 * windy, 12);
    expect(value(house({ "wind speed": 4, "offset share": 0.2 }), "wind_d")).toBeCloseTo(2 * windy, 12);
    expect(sensitivity(house({ "fan exponent": 0.6 }), "g_f")).toBeCloseTo(0.6, 12);
    // A larger noise of the flow changes the shape of the random errors, not their size: κ falls.
    const stated = house({ "flow uncertainty": 0.02 });
    expect(value(stated, "kappa")).toBeLessThan(value(house(), "kappa"));
    expect(contribution(stated, "stated_d")).toBe(0);
    expect(note(stated, "stated_d")).toBe("for comparison: contained in the row above");
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

  test("each opening has its own lowest fan pressure", () => {
    const through = (fan: Cell) => house({ openings: "AAABB", "fan pressure at lowest flow": fan });
    const [alike, apart] = [through(30), through("30; 60")];
    expect(through("30;30")).toEqual(alike);
    // The readings through B have twice the fan pressure, so that the gauge's zero matters half as much there.
    const ofB = flows.slice(3).reduce((sum, [flow], index) => {
      const fan = 30 * (Number(flow) / 281) ** 2;
      return sum + (shareOf(3 + index) * 0.5) / fan;
    }, 0);
    expect(sensitivity(apart, "o_f")).toBeCloseTo(sensitivity(alike, "o_f") - ofB / 2, 8);
    expect(refusal(() => house({ openings: "AABBC", "fan pressure at lowest flow": "30; 60" })).message).toBe(
      "settings: fan pressure at lowest flow: 2 for 3 openings: the numbers must match",
    );
    expect(refusal(() => through("30, 60")).message).toMatch(/numbers above 0 are needed, separated by ;/);
  });

  test("uncertainties beyond all numbers are refused", () => {
    const refused = { code: "#VALUE!", message: "settings: too large or too small to calculate with" };
    expect(refusal(() => house({ "pressure uncertainty": 1e308 }))).toEqual(refused);
    expect(refusal(() => house({ "gauge zero": 1.7e308 })).message).toMatch(/too large/);
  });

  test("openings by letters, one a reading", () => {
    const table = house({ openings: "aabbc" });
    const sum = ["gamma_A", "gamma_B", "gamma_C"].reduce((total, symbol) => total + sensitivity(table, symbol), 0);
    expect(sum).toBeCloseTo(1, 12);
    expect(sensitivity(table, "gamma_C")).not.toBe(0);
    expect(refusal(() => house({ openings: "AAB" })).message).toMatch(/settings: openings: 3 for 5 readings/);
    expect(refusal(() => house({ openings: "AABBI" })).message).toMatch(/letters from A to H/);
    expect(refusal(() => house({ openings: "?" })).message).toMatch(
      /^settings, row \d+: openings: letters, one per reading/,
    );
    const all = house({ openings: "B" });
    expect(sensitivity(all, "gamma_B")).toBeCloseTo(1, 12);
    expect(sensitivity(all, "gamma_A")).toBe(0);
  });

  describe("openings by name, as on the certificate", () => {
    const names = "no ring; ring 40; ring 25; 3; 4; 5; plate; small plate";
    const named = (openings: Cell, more: Readonly<Record<string, Cell>> = {}) =>
      house({ openings, "opening names": names, ...more });

    test("give what letters for their places give", () => {
      const byLetters = house({ openings: "AABHH", "opening names": names });
      expect(named("no ring;no ring;Ring 40; small plate;small plate")).toEqual(byLetters);
      expect(rowOf(byLetters, "gamma_B")[0]).toBe("calibration of opening ring 40");
      expect(rowOf(byLetters, "m_H")[0]).toBe("exponent of opening small plate");
      expect(rowOf(house({ openings: "AABHH" }), "m_H")[0]).toBe("exponent of opening H");
      expect(sensitivity(byLetters, "gamma_H")).not.toBe(0);
    });

    test("may be numbers, and one may be that of all readings", () => {
      expect(named(4)).toEqual(house({ openings: "E", "opening names": names }));
      expect(named("3;3;4;4;5")).toEqual(house({ openings: "DDEEF", "opening names": names }));
      expect(sensitivity(house({ openings: 2, "opening names": 2 }), "gamma_A")).toBeCloseTo(1, 12);
    });

    test("have a calibration, an exponent and a range of their own", () => {
      const uncertainties = "0.01;0.02;0.03;0.04;0.05;0.06;0.07;0.08";
      const table = named("no ring;no ring;ring 40;ring 40;plate", {
        "opening calibration uncertainty": uncertainties,
        "fan exponent uncertainty": uncertainties.replaceAll("0.0", "0.00"),
      });
      for (const [index, letter] of [...letters].entries()) {
        expect(value(table, `gamma_${letter}`)).toBe((index + 1) / 100);
        expect(value(table, `m_${letter}`)).toBe((index + 1) / 1000);
      }
      const pivots = (pivot: Cell) =>
        named("no ring;no ring;no ring;ring 40;ring 40", {
          "fan pressure at lowest flow": "30;60",
          "pivot fan pressure": pivot,
        });
      const [alike, apart] = [pivots(40), pivots(`40;${40 * Math.E}`)];
      expect(sensitivity(apart, "m_A")).toBe(sensitivity(alike, "m_A"));
      expect(sensitivity(alike, "m_B") - sensitivity(apart, "m_B")).toBeCloseTo(sensitivity(alike, "gamma_B"), 12);
    });

    test("that the list has not, or without a list, are refused", () => {
      const refused = (openings: Cell, more: Readonly<Record<string, Cell>> = {}) =>
        refusal(() => named(openings, more)).message;
      expect(refused("no ring;no ring;ring 41;ring 40;plate")).toMatch(
        /^settings: openings: "ring 41" is not one of: no ring, ring 40/,
      );
      expect(refusal(() => house({ openings: "one;one;two;two;two" }))).toEqual({
        code: "#N/A",
        message: 'settings: "opening names" is not given yet',
      });
      expect(refused("no ring;plate")).toBe("settings: openings: 2 for 5 readings: the numbers must match");
      expect(refused("1;2;3;4;9", { "opening names": "1;2;3;4;5;6;7;8;9" })).toMatch(/letters from A to H/);
      expect(refused("plate", { "opening calibration uncertainty": "0.01;0.02" })).toBe(
        "settings: opening calibration uncertainty: 2 for 7 openings: the numbers must match",
      );
      expect(refused("plate", { "opening calibration uncertainty": "0.01;0.7" })).toMatch(/a fraction, 0.02 for 2 %/);
    });
  });
});

const letters = "ABCDEFGH";
