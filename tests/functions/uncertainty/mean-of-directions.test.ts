import { describe, expect, test } from "vitest";
import { techniques } from "../../../src/core";
import { uncertaintyBudget } from "../../../src/functions";
import { block, column as columnOf, type Cell } from "../../authorities/support/sheet";
import vectors from "../../authorities/uncertainty-vectors/vectors.json";
import { refusal } from "../errors";
import { type Table, rowOf, value, sensitivity } from "./budgets";
import { slow } from "../../time-outs";

describe("the mean of both directions against a budget in fifty digits", { timeout: slow }, () => {
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
  });

  test("refuses a table that is not the other direction's", () => {
    const table = direction(0);
    expect(refusal(() => direction(0, {}, table))).toMatchObject({ code: "#VALUE!" });
    expect(refusal(() => direction(0, {}, table)).message).toMatch(
      /other_direction: a table of depressurization with the result 0\.\d+ is counted twice/,
    );
    expect(refusal(() => direction(1, { "budget quantity": "q50" }, table)).message).toMatch(
      /a budget for q50 is needed/,
    );
    expect(refusal(() => direction(0, {}, mean)).message).toMatch(
      /other_direction: a budget for a single run is needed \(got both\)/,
    );
    expect(refusal(() => direction(1, {}, table.slice(5))).message).toMatch(
      /the whole table of UNCERTAINTYBUDGET is needed/,
    );
    expect(refusal(() => direction(1, {}, [[1]])).message).toMatch(/other_direction/);
    const failed = [[{ type: "Error", basicValue: "#N/A" }, ...Array<string>(10).fill("")], Array<string>(11).fill("")];
    expect(refusal(() => direction(1, {}, failed))).toMatchObject({
      code: "#N/A",
      message: "other_direction: the cell holds #N/A",
    });
    // Row gamma_A would be one source for two different openings.
    const ofDevice = (index: number, names: string, other?: Table) =>
      direction(index, { "opening names": names }, other);
    expect(refusal(() => ofDevice(1, "small;large", ofDevice(0, "large;small")))).toEqual({
      code: "#VALUE!",
      message: 'other_direction: row "gamma_A" is of another opening: give both the same "opening names"',
    });
    expect(value(ofDevice(1, "large;small", ofDevice(0, "large;small")), "u_c")).toBeCloseTo(value(mean, "u_c"), 12);
    const tooWindy = direction(0, { "wind speed": 15 });
    expect(refusal(() => direction(1, {}, tooWindy)).message).toMatch(/no uncertainty can be given/);
  });

  const trials = { "monte carlo trials": 20_000, "fan pressure at lowest flow": "100; 100" };

  test("Monte Carlo confirms the budget of one direction and of the mean; blank when off", () => {
    const checked = direction(0, { ...trials, "monte carlo trials": 100_000 });
    expect(["validated", "acceptable"]).toContain(rowOf(checked, "mc_outcome")[2]);
    expect(value(checked, "mc_trials")).toBe(100_000);
    expect(Math.abs(value(checked, "mc_lower") / value(checked, "lower") - 1)).toBeLessThan(0.002);
    const both = direction(1, { ...trials, "monte carlo trials": 100_000 }, direction(0, trials));
    expect(rowOf(both, "mc_outcome")[2]).toBe("validated");
    expect(rowOf(both, "direction")[2]).toBe("both");
    // The zero shift of the gauge cancels between the directions: the mean is known better than the one.
    const width = (table: Table) => (value(table, "mc_upper") - value(table, "mc_lower")) / value(table, "result");
    const shifted = { ...trials, "gauge zero": 1 };
    expect(width(direction(1, shifted, direction(0, shifted)))).toBeLessThan(width(direction(0, shifted)));
    expect(value(direction(0, { ...trials, "monte carlo seed": 2 }), "mc_lower")).not.toBe(
      value(direction(0, trials), "mc_lower"),
    );
    for (const symbol of ["mc_trials", "mc_dropped", "mc_lower", "mc_upper", "mc_outcome"]) {
      expect(rowOf(direction(0), symbol)[2]).toBe("");
    }
  });

  test.each(techniques.filter((technique) => technique !== "ordinary"))(
    "Monte Carlo takes the technique %s too",
    (technique) => {
      const checked = direction(0, { ...trials, technique });
      expect(["validated", "acceptable"]).toContain(rowOf(checked, "mc_outcome")[2]);
      const width = value(checked, "upper") - value(checked, "lower");
      for (const end of ["lower", "upper"])
        expect(Math.abs(value(checked, `mc_${end}`) - value(checked, end)) / width).toBeLessThan(0.03);
    },
  );

  test("a run that its table holds as text is evaluated as the run itself", () => {
    const alone = direction(0, trials);
    const text = String(rowOf(alone, "mc_readings")[10]);
    expect(value(alone, "mc_readings")).toBe(10);
    const { test, readings, sources } = JSON.parse(text) as Record<string, unknown[]>;
    expect([readings!.length, sources!.length]).toEqual([10, 5]);
    expect(test).toMatchObject({ direction: "depressurization", standard: "ISO 9972", technique: "ordinary" });
    const spoilt = alone.map((row) => (row[1] === "mc_readings" ? [...row.slice(0, 10), "{}"] : row));
    expect(refusal(() => direction(1, trials, spoilt)).message).toBe(
      'other_direction: its row "mc_readings" was changed',
    );
    const blank = alone.map((row) => (row[1] === "mc_readings" ? [...row.slice(0, 10), ""] : row));
    expect(rowOf(direction(1, trials, blank), "mc_trials")[10]).toMatch(/too many readings/);
  });
});

describe("the expected exponent in a budget", { timeout: slow }, () => {
  const at = [30, 26, 22, 18, 14, 10];
  const gusty = (more: Record<string, Cell> = {}): Table =>
    uncertaintyBudget(
      "depressurization",
      columnOf(at.map((pressure, index) => -pressure - 2 + 0.9 * Math.cos(5 * index))),
      columnOf(at.map((pressure) => 26 * pressure ** 0.58)),
      columnOf([-1.2, -2.9, -1.6, -3.1, -2.2, -1.4]),
      columnOf([-2.3, -1.1, -2.6, -2.9, -1.3, -1.9]),
      block({
        volume: 410,
        "indoor temperature": 20,
        "outdoor temperature": 5,
        "flow basis": "through the envelope",
        technique: "weighted with expected exponent",
        ...more,
      }),
    ) as Table;

  test("is a source for n by its share, and for flows by their distance from the readings", () => {
    const ofN = gusty({ "budget quantity": "n" });
    const share = sensitivity(ofN, "prior");
    expect(share).toBeGreaterThan(0.1);
    expect(share).toBeLessThan(0.9);
    expect(value(ofN, "prior")).toBe(0.057);
    const of = (quantity: string) => sensitivity(gusty({ "budget quantity": quantity }), "prior");
    expect(of("q50")).toBeGreaterThan(0);
    expect(of("ELA4")).toBeLessThan(0);
    expect(sensitivity(gusty({ technique: "ordinary", "budget quantity": "n" }), "prior")).toBe(0);
  });

  test("weighs by the noise that the budget takes: of the baseline's own readings where none is stated", () => {
    const [found, stated] = [gusty(), gusty({ "pressure uncertainty": 0.2, "flow uncertainty": 0.005 })];
    expect(value(found, "u_P")).toBeGreaterThan(0.5);
    expect(value(found, "result")).not.toBe(value(stated, "result"));
    expect(rowOf(found, "scatter_d")[7]).toBe(4);
  });

  test("is drawn in a Monte Carlo check", () => {
    const checked = gusty({ "monte carlo trials": 20_000, "budget quantity": "n", "extrapolation allowance": "none" });
    const width = value(checked, "upper") - value(checked, "lower");
    // Four degrees of freedom: the budget's t-interval and the simulation differ by some per cent of the width.
    for (const end of ["lower", "upper"])
      expect(Math.abs(value(checked, `mc_${end}`) - value(checked, end)) / width).toBeLessThan(0.1);
  });
});

describe("several runs", { timeout: slow }, () => {
  /** An invented house; each run has its own scatter. */
  const run = (
    way: "depressurization" | "pressurization",
    shift: number,
    other?: Table,
    more: Record<string, Cell> = {},
  ): Table => {
    const side = way === "depressurization" ? -1 : 1;
    const at = [60, 52, 44, 36, 28, 20, 14];
    return uncertaintyBudget(
      way,
      columnOf(at.map((pressure) => side * pressure - 1.3)),
      columnOf(
        at.map(
          (pressure, index) => 26 * (1 + shift) * pressure ** 0.64 * (1 + 0.004 * Math.sin(9 * index + 50 * shift)),
        ),
      ),
      columnOf([-1.2, -1.5, -1.1, -1.4, -1.3, -1.3]),
      columnOf([-1.3, -1.2, -1.4, -1.5, -1.1, -1.3]),
      block({
        volume: 410,
        "indoor temperature": 20,
        "outdoor temperature": 5,
        "flow basis": "through the envelope",
        ...more,
      }),
      undefined,
      other,
    ) as Table;
  };
  const stack = (...tables: Table[]): Table => tables.flat();

  test("runs of a direction are averaged first, then the directions", () => {
    const [first, second, third] = [
      run("depressurization", 0),
      run("depressurization", 0.02),
      run("depressurization", 0.05),
    ];
    const up = run("pressurization", 0.01, stack(first, second, third));
    const mean = (value(first, "result") + value(second, "result") + value(third, "result")) / 3;
    expect(value(up, "result")).toBeCloseTo((value(run("pressurization", 0.01), "result") + mean) / 2, 12);
    expect(rowOf(up, "direction")[2]).toBe("both");
    const down = run("depressurization", 0, stack(second, third));
    expect(value(down, "result")).toBeCloseTo(mean, 12);
    expect(rowOf(down, "direction")[2]).toBe("depressurization, 3 runs");
    // Calibration and volume are common to the runs, their random errors are not.
    expect(sensitivity(down, "gamma_0")).toBeCloseTo(1, 12);
    const squares = [first, second, third].reduce(
      (sum, table) => sum + ((value(table, "result") / mean / 3) * value(table, "scatter_d")) ** 2,
      0,
    );
    expect(value(down, "scatter_d")).toBeCloseTo(Math.sqrt(squares), 12);
  });

  test("the same in a Monte Carlo check", () => {
    const trials = { "monte carlo trials": 20_000 };
    const others = stack(run("depressurization", 0.02), run("depressurization", 0.05));
    const up = run("pressurization", 0.01, others, trials);
    expect(["validated", "acceptable"]).toContain(rowOf(up, "mc_outcome")[2]);
    expect(value(up, "mc_lower")).toBeLessThan(value(up, "result"));
  });

  test("the directions against each other, by the uncertainty that they do not share", () => {
    const still = { "outdoor temperature": 20 };
    const alike = run("pressurization", 0.003, run("depressurization", 0, undefined, still), still);
    expect(rowOf(alike, "diff_outcome")[2]).toBe("not significant");
    const apart = run("pressurization", 0.06, run("depressurization", 0));
    expect(rowOf(apart, "diff_outcome")[2]).toBe("significant");
    const ratio = value(run("pressurization", 0.06), "result") / value(run("depressurization", 0), "result");
    expect(value(apart, "diff")).toBeCloseTo(100 * (ratio - 1), 10);
    // A calibration error of the device moves both alike.
    const [small, large] = [0.001, 0.1].map((uncertainty) => {
      const more = { "flow calibration uncertainty": uncertainty };
      return rowOf(run("pressurization", 0.06, run("depressurization", 0, undefined, more), more), "diff");
    });
    expect(small!.slice(8, 10)).toEqual(large!.slice(8, 10));
    expect(rowOf(run("pressurization", 0), "diff")[2]).toBe("");
  });

  test("one baseline for both directions acts once, with opposite sign", () => {
    const shared = { "baseline shared": "yes" };
    const both = run("pressurization", 0, run("depressurization", 0, undefined, shared), shared);
    const apart = run("pressurization", 0, run("depressurization", 0));
    expect(Math.abs(sensitivity(both, "B1"))).toBeLessThan(0.2 * Math.abs(sensitivity(apart, "B1_p")));
    expect([value(both, "B1"), rowOf(both, "B1_d")[2]]).toEqual([value(apart, "B1_p"), ""]);
    expect(value(both, "expanded")).toBeLessThan(value(apart, "expanded"));
    expect(rowOf(apart, "B1")[2]).toBe("");
  });
});
