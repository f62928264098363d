import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { uncertaintyBudget } from "../../src/functions";
import { sheetTests } from "../authorities/support/sheet-test";
import { block, column as columnOf, numberOf, type Cell } from "../authorities/support/sheet";
import vectors from "../authorities/uncertainty-vectors/vectors.json";
import { column, refusal } from "./errors";

type Table = unknown[][];

const rowOf = (table: Table, symbol: string): unknown[] => {
  const found = table.filter((row) => row[1] === symbol);
  if (found.length !== 1) throw new Error(`${found.length} rows ${symbol}`);
  return found[0]!;
};
const value = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[2]);
const sensitivity = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[4]);
const contribution = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[5]);
const note = (table: Table, symbol: string) => String(rowOf(table, symbol)[10]);

/** The house of the guide. */
const pressures = column(-61.3, -51.3, -41.3, -31.3, -21.3);
const flows = column(574, 507, 441, 364, 281);
const before = column(-1.2, -1.6, -1.4);
const after = column(-1, -1.4, -1.2);
const base = { volume: 229.2, "indoor temperature": 21, "outdoor temperature": 3, "flow basis": "actual at the fan" };
const house = (more: Record<string, Cell> = {}, other?: Table): Table =>
  uncertaintyBudget("depressurization", pressures, flows, before, after, block({ ...base, ...more }), undefined, other);

describe("the guide's house against a budget worked out apart: plain Python, central differences of the whole calculation", () => {
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
    ["drift_d", 0.06666666666666642, -0.0016294469773470216],
  ])("%s", (symbol, uncertainty, derivative) => {
    expect(value(table, symbol) / uncertainty).toBeCloseTo(1, 10);
    expect(sensitivity(table, symbol) / derivative).toBeCloseTo(1, 7);
  });

  test("combined", () => {
    expect(value(table, "u_rel")).toBeCloseTo(0.027953769448, 10);
    expect(value(table, "dof_eff") / 190.61432752699605).toBeCloseTo(1, 7);
    expect(value(table, "dof")).toBe(190);
    expect(value(table, "scatter_d")).toBeCloseTo(0.0017189417691907472, 14);
  });
});

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
      openings: given.opening.join(""),
      "baseline uncertainty": 0.15,
      "pressure uncertainty": 0.15,
      "flow uncertainty": 0.0025,
      ...more,
    };
    return uncertaintyBudget(
      given.direction,
      columnOf(given.readings),
      columnOf(through),
      [[given.baseline_before]],
      [[given.baseline_after]],
      block(settings),
      undefined,
      other,
    );
  };
  const mean = direction(1, {}, direction(0));

  // Not compared: the fan gauge's zero, the openings' exponents and the wind, for which the sheet assumes other inputs than the vectors.
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
    expect(value(house({ "budget quantity": "ELA4" }), "model")).toBeCloseTo(
      (0.1 * Math.log(20 / 4)) / Math.sqrt(3),
      12,
    );
    expect(value(house({ ...all, "budget quantity": "q_pr" }), "model")).toBeCloseTo(
      (0.06 * Math.log(75 / 60)) / Math.sqrt(3),
      12,
    );
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

describe("warnings", () => {
  const warning = (table: Table, symbol: string) => [rowOf(table, symbol)[2], note(table, symbol)];

  test("a calm test with everything given has none", () => {
    const calm = house({
      "wind speed": 1,
      "building height": 6,
      "fan pressure at lowest flow": 40,
      "pressure uncertainty": 0.1,
      "flow uncertainty": 0.003,
    });
    for (const row of calm.filter(([, symbol]) => String(symbol).startsWith("w_"))) expect(row[2]).toBe("ok");
  });

  test("wind: no uncertainty is given at all", () => {
    const table = house({ "wind speed": 10 });
    expect(warning(table, "w_wind")).toEqual(["warning", expect.stringMatching(/no uncertainty can be given/)]);
    for (const symbol of ["u_rel", "u_c", "dof_eff", "dof", "t", "expanded_rel", "expanded", "lower", "upper"])
      expect(rowOf(table, symbol)[2]).toBe("");
    expect(rowOf(table, "result").slice(8, 10)).toEqual(["", ""]);
    expect(rowOf(table, "q50").slice(7, 10)).toEqual(["", "", ""]);
    expect(value(table, "result")).toBeCloseTo(2.1197, 4);
  });

  test("few readings, where the scatter counts", () => {
    expect(rowOf(house(), "w_few")[2]).toBe("ok");
    const scattered = uncertaintyBudget(
      "depressurization",
      pressures,
      column(574, 545, 441, 330, 281),
      before,
      after,
      block(base),
    );
    expect(warning(scattered, "w_few")).toEqual(["warning", "few readings: take 8 or more"]);
  });

  test("pressures that are uncertain by a tenth, and by a third", () => {
    expect(warning(house({ "pressure uncertainty": 1.9 }), "w_weak")[0]).toBe("ok");
    const weak = house({ "pressure uncertainty": 2.2 });
    expect(warning(weak, "w_weak")).toEqual(["warning", expect.stringMatching(/drop readings below 22 Pa/)]);
    expect(rowOf(weak, "w_unusable")[2]).toBe("ok");
    expect(rowOf(house({ "pressure uncertainty": 6.6 }), "w_unusable")[2]).toBe("warning");
  });

  test("a pressure outside the readings", () => {
    expect(rowOf(house(), "w_extrapolated")[2]).toBe("ok");
    expect(warning(house({ "budget quantity": "AL10" }), "w_extrapolated")).toEqual([
      "warning",
      expect.stringMatching(/^extrapolated/),
    ]);
    expect(rowOf(house({ "reference pressure": 60, "budget quantity": "q_pr" }), "w_extrapolated")[2]).toBe("ok");
  });

  test("a baseline that moved", () => {
    const moved = uncertaintyBudget(
      "depressurization",
      pressures,
      flows,
      column(-5, -5),
      column(2.4, 2.4),
      block({ ...base, "budget quantity": "n" }),
    );
    expect(warning(moved, "w_moved")).toEqual(["warning", "baseline moved: repeat"]);
    expect(rowOf(house({ "budget quantity": "n" }), "w_moved")[2]).toBe("ok");
  });

  test("scatter against what is stated", () => {
    expect(warning(house(), "w_scatter")[0]).toBe("ok");
    expect(warning(house({ "pressure uncertainty": 0.01 }), "w_scatter")).toEqual([
      "warning",
      expect.stringMatching(/larger than stated/),
    ]);
    expect(warning(house({ "pressure uncertainty": 2 }), "w_scatter")).toEqual([
      "warning",
      "stated too large, or readings smoothed or copied",
    ]);
  });

  test("what was not counted is named", () => {
    expect(warning(house(), "w_missing")).toEqual([
      "warning",
      "not counted, for want of wind speed, building height, fan pressure at lowest flow",
    ]);
  });
});

test("every random test has a budget of finite cells whose shares are parts of a whole, whatever the technique", () => {
  const techniques = ["ordinary", "weighted", "organic correlation", "weighted organic correlation", "errors in both"];
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
});
