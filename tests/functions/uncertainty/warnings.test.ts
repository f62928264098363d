import { describe, expect, test } from "vitest";
import { uncertaintyBudget } from "../../../src/functions";
import { block } from "../../authorities/support/sheet";
import { column } from "../errors";
import { type Table, rowOf, value, note, pressures, flows, before, after, base, house } from "./budgets";

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
    const open = calm.filter(([, symbol, word]) => String(symbol).startsWith("w_") && word !== "ok");
    expect(open.map(([, symbol]) => symbol)).toEqual(["w_rows"]);
  });

  test("too few baseline readings to tell whether neighbours are alike, unless their uncertainty is given", () => {
    expect(warning(house(), "w_rows")).toEqual(["warning", expect.stringMatching(/^too few to tell/)]);
    expect(rowOf(house({ "baseline uncertainty": 0.2 }), "w_rows")[2]).toBe("ok");
    expect(rowOf(house({ "baseline before uncertainty": 0.2 }), "w_rows")[2]).toBe("warning");
    const six = column(-1.2, -1.6, -1.4, -1.5, -1.1, -1.3);
    const many = uncertaintyBudget("depressurization", pressures, flows, six, six, block(base));
    expect(rowOf(many, "w_rows")[2]).toBe("ok");
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
    const stated = (pressure: number) => house({ "pressure uncertainty": pressure, "flow uncertainty": 0.005 });
    expect(warning(stated(1.9), "w_weak")[0]).toBe("ok");
    const weak = stated(2.2);
    expect(warning(weak, "w_weak")).toEqual(["warning", expect.stringMatching(/drop readings below 22 Pa/)]);
    expect(rowOf(weak, "w_unusable")[2]).toBe("ok");
    expect(rowOf(stated(6.6), "w_unusable")[2]).toBe("warning");
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
    expect(warning(house({ "pressure uncertainty": 0.01, "flow uncertainty": 0.0005 }), "w_scatter")).toEqual([
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
