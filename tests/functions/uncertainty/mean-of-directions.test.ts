import { describe, expect, test } from "vitest";
import { uncertaintyBudget } from "../../../src/functions";
import { block, column as columnOf, type Cell } from "../../authorities/support/sheet";
import vectors from "../../authorities/uncertainty-vectors/vectors.json";
import { refusal } from "../errors";
import { type Table, rowOf, value, sensitivity } from "./budgets";

describe("the mean of both directions against a budget in fifty digits", () => {
  const { inputs, expected } = vectors.budgets[0]!;
  const openings = inputs.openings as Record<string, { coefficient: number; exponent: number }>;
  const direction = (index: number, more: Record<string, Cell> = {}, other?: Table): Table => {
    const given = inputs.directions[index]!;
    const through = given.fan_pressures.map((pressure, row) => {
      const { coefficient, exponent } = openings[given.opening[row]!]!;
      return coefficient * pressure ** exponent;
    });
    const settings = {
      volume: inputs.volume,
      "indoor temperature": inputs.indoor_temperature,
      "outdoor temperature": inputs.outdoor_temperature,
      "barometric pressure": inputs.barometer,
      "indoor humidity": inputs.indoor_humidity,
      "outdoor humidity": inputs.outdoor_humidity,
      "calibration density": inputs.calibration_density,
      "flow basis": "indicated at calibration density",
      "wind speed": inputs.wind_speed,
      "building height": inputs.height,
      openings: given.opening.join(""),
      "pressure uncertainty": 0.15,
      "flow uncertainty": 0.0025,
      ...more,
    };
    return uncertaintyBudget(
      given.direction,
      columnOf(given.readings),
      columnOf(through),
      columnOf(given.baseline_before),
      columnOf(given.baseline_after ?? []),
      block(settings),
      undefined,
      other,
    );
  };
  const mean = direction(1, {}, direction(0));

  // Not compared: the fan gauge's zero and the openings' exponents, for which the sheet assumes other inputs than the vectors.
  test.each([
    ["g_e", "gain_e"],
    ["o_e", "off_e"],
    ["gamma_0", "gam0"],
    ["gamma_A", "gam_A"],
    ["gamma_B", "gam_B"],
    ["theta_i", "ti"],
    ["theta_e", "te"],
    ["p_bar", "pb"],
    ["phi_i", "phii"],
    ["phi_e", "phie"],
    ["size", "vol"],
    ["stack", "stack"],
    ["wind_d", "wind0"],
    ["wind_p", "wind1"],
    ["B1_d", "B10"],
    ["B2_p", "B21"],
    ["B_d", "bconst0"],
    ["B_p", "bconst1"],
    ["drift_d", "drift0"],
    ["drift_p", "drift1"],
    ["scatter_d", "random0"],
    ["scatter_p", "random1"],
  ])("%s", (symbol, source) => {
    const row = expected.rows.find((each) => each.source === source)!;
    expect(value(mean, symbol) / row.u).toBeCloseTo(1, 9);
    expect(sensitivity(mean, symbol) / row.sensitivity).toBeCloseTo(1, 9);
  });

  test("result, combined uncertainty and limits; what differs is less than a thousandth of U", () => {
    expect(value(mean, "result") / expected.n50).toBeCloseTo(1, 11);
    expect(Math.abs(value(mean, "expanded") / expected.U - 1)).toBeLessThan(1e-3);
    expect(rowOf(mean, "result")[8]).toBe(value(mean, "lower"));
    expect(value(mean, "lower")).toBeCloseTo(expected.lower, 4);
    expect(value(mean, "upper")).toBeCloseTo(expected.upper, 4);
    expect(rowOf(mean, "direction")[2]).toBe("both");
  });

  test("is what a sheet's own SUMPRODUCT over the two tables' contributions gives, either way round", () => {
    const tables = [direction(0), direction(1)] as const;
    const total = value(tables[0], "result") + value(tables[1], "result");
    const sum = tables[0].reduce((squares, row, index) => {
      const [k0, k1] = [row[5], tables[1][index]![5]];
      if (typeof k0 !== "number" || typeof k1 !== "number") return squares;
      return squares + ((value(tables[0], "result") * k0 + value(tables[1], "result") * k1) / total) ** 2;
    }, 0);
    expect(Math.sqrt(sum) / value(mean, "u_rel")).toBeCloseTo(1, 12);
    expect(value(direction(0, {}, tables[1]), "u_rel") / value(mean, "u_rel")).toBeCloseTo(1, 12);
  });

  test("n is averaged with equal weights, its uncertainty absolute", () => {
    const of = (index: number, other?: Table) => direction(index, { "budget quantity": "n" }, other);
    const both = of(1, of(0));
    expect(value(both, "result")).toBeCloseTo((expected.n[0]!.n + expected.n[1]!.n) / 2, 12);
    expect(rowOf(both, "u_rel")[2]).toBe("");
    expect(value(both, "upper") - value(both, "result")).toBeCloseTo(value(both, "expanded"), 12);
    // The two openings' mismatch acts alike in both directions, the zero shift with opposite sign.
    expect(sensitivity(both, "gamma_A")).toBeCloseTo(0.99926, 4);
    expect(Math.abs(sensitivity(both, "o_e"))).toBeLessThan(2e-4);
    expect(Math.abs(value(of(0), "u_c") / expected.n[0]!.u - 1)).toBeLessThan(0.02);
  });

  test("refuses a table that is not the other direction's", () => {
    const table = direction(0);
    expect(refusal(() => direction(0, {}, table))).toMatchObject({ code: "#VALUE!" });
    expect(refusal(() => direction(0, {}, table)).message).toMatch(
      /other_direction: the other direction than depressurization/,
    );
    expect(refusal(() => direction(1, { "budget quantity": "q50" }, table)).message).toMatch(
      /a budget for q50 is needed/,
    );
    expect(refusal(() => direction(0, {}, mean)).message).toMatch(/other_direction/);
    expect(refusal(() => direction(1, {}, table.slice(5))).message).toMatch(
      /the whole table of UNCERTAINTYBUDGET is needed/,
    );
    expect(refusal(() => direction(1, {}, [[1]])).message).toMatch(/other_direction/);
    const failed = [[{ type: "Error", basicValue: "#N/A" }, ...Array<string>(10).fill("")], Array<string>(11).fill("")];
    expect(refusal(() => direction(1, {}, failed))).toMatchObject({
      code: "#N/A",
      message: "other_direction: the cell holds #N/A",
    });
    const tooWindy = direction(0, { "wind speed": 15 });
    expect(refusal(() => direction(1, {}, tooWindy)).message).toMatch(/no uncertainty can be given/);
  });

  test("Monte Carlo confirms the budget of one direction, and nearly where the readings are stated as noisy; blank when off and for a mean", () => {
    const checked = direction(0, { "monte carlo trials": 100_000, "fan pressure at lowest flow": 100 });
    expect(rowOf(checked, "mc_outcome")[2]).toBe("validated");
    expect(value(checked, "mc_trials")).toBe(100_000);
    expect(Math.abs(value(checked, "mc_lower") / value(checked, "lower") - 1)).toBeLessThan(0.002);
    const ofStated = direction(0, { "monte carlo trials": 100_000, "pressure uncertainty": 0.8 });
    expect(rowOf(ofStated, "scatter_d")[5]).toBe(0);
    expect(rowOf(ofStated, "mc_outcome")[2]).toBe("acceptable");
    const width = value(ofStated, "upper") - value(ofStated, "lower");
    for (const end of ["lower", "upper"])
      expect(Math.abs(value(ofStated, `mc_${end}`) - value(ofStated, end)) / width).toBeLessThan(0.02);
    const reseeded = direction(0, {
      "monte carlo trials": 20000,
      "fan pressure at lowest flow": 100,
      "monte carlo seed": 2,
    });
    expect(value(reseeded, "mc_lower")).not.toBe(value(checked, "mc_lower"));
    for (const symbol of ["mc_trials", "mc_dropped", "mc_lower", "mc_upper", "mc_outcome"]) {
      expect(rowOf(direction(0), symbol)[2]).toBe("");
      expect(rowOf(direction(1, { "monte carlo trials": 20000 }, direction(0)), symbol)[2]).toBe("");
    }
  });
});
