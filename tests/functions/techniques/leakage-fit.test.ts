import { describe, expect, test } from "vitest";
import { leakageFit } from "../../../src/functions";
import { expectAgreement } from "../../authorities/support/compare";
import { column, limitsOf, valueOf } from "../../authorities/support/sheet";
import { refusal } from "../errors";
import {
  vector,
  pressures,
  flows,
  u_pressure,
  u_flow,
  expected,
  p,
  q,
  uncertainP,
  uncertainQ,
  FIFTEEN,
  fit,
} from "./vectors";

const beside = (second: readonly unknown[]) => u_flow.map((value, row) => [value, second[row]]);

describe("LEAKAGEFIT by technique", () => {
  test.each([
    ["weighted", fit("weighted"), expected.weighted_q2_relative],
    ["organic correlation", fit("organic correlation"), expected.organic],
    ["Organic Correlation", fit("Organic Correlation"), expected.organic],
    ["weighted, both uncertainties", fit("weighted", uncertainP, uncertainQ), expected.weighted_effective_iterated],
    ["weighted organic", fit("weighted organic correlation", uncertainP, uncertainQ), expected.weighted_organic],
    ["errors in both", fit("errors in both", uncertainP, uncertainQ), expected.york],
  ])("%s", (_, table, { n, C, q50, u_n, u_lnC }) => {
    expectAgreement(valueOf(table, "n"), n, 1e-12, FIFTEEN);
    expectAgreement(valueOf(table, "C"), C, 1e-12, FIFTEEN);
    expectAgreement(valueOf(table, "q50"), q50, 1e-12, FIFTEEN);
    expectAgreement(valueOf(table, "s_n"), u_n, 1e-10, FIFTEEN);
    expectAgreement(valueOf(table, "s_lnC"), u_lnC, 1e-10, FIFTEEN);
    const half = limitsOf(table, "n").upper - n;
    expectAgreement(half, valueOf(table, "t") * u_n, 1e-10, FIFTEEN);
  });

  test("stated uncertainties that hold: infinite degrees of freedom and the normal quantile", () => {
    const table = fit("errors in both", uncertainP, uncertainQ);
    expect(table.find((row) => row[1] === "dof")?.slice(2)).toEqual(["infinite", "", "", "", "stated uncertainties"]);
    expectAgreement(valueOf(table, "t"), 1.959963984540054, 1e-14, "the normal quantile");
  });

  test("stated uncertainties that the scatter exceeds: N − 2 and standard errors enlarged by √(χ²/(N − 2))", () => {
    const { u_n, chi2 } = expected.weighted_stated_uy;
    const table = fit("weighted", undefined, uncertainQ);
    expect(table.find((row) => row[1] === "dof")?.slice(2, 3)).toEqual([3]);
    expectAgreement(valueOf(table, "s_n"), u_n * Math.sqrt(chi2 / 3), 1e-10, FIFTEEN);
  });

  test("errors in both with correlated errors: a second column beside the flow's uncertainty, a blank there is 0", () => {
    const { correlation_xy, expected: of } = vector;
    if (!correlation_xy || !of.york_correlated) throw new Error("no correlation");
    const table = fit("errors in both", uncertainP, beside(correlation_xy));
    expectAgreement(valueOf(table, "n"), of.york_correlated.n, 1e-12, FIFTEEN);
    expectAgreement(valueOf(table, "C"), of.york_correlated.C, 1e-12, FIFTEEN);
    expectAgreement(valueOf(table, "s_n"), of.york_correlated.u_n, 1e-10, FIFTEEN);
    expectAgreement(valueOf(table, "s_lnC"), of.york_correlated.u_lnC, 1e-10, FIFTEEN);
    for (const nothing of [0, "", null]) {
      const without = fit("errors in both", uncertainP, beside(pressures.map(() => nothing)));
      expect(without).toEqual(fit("errors in both", uncertainP, uncertainQ));
    }
  });

  test("a correlation is refused where it is none, and where the technique knows none", () => {
    const ofFlow = beside(pressures.map((_, row) => (row === 2 ? 1 : 0)));
    expect(refusal(() => fit("errors in both", uncertainP, ofFlow))).toMatchObject({
      code: "#VALUE!",
      message: "flow_uncertainty, row 3: a correlation must lie between −1 and 1",
    });
    for (const technique of ["weighted", "weighted organic correlation"])
      expect(refusal(() => fit(technique, uncertainP, ofFlow)).message).toBe(
        "flow_uncertainty: one column is needed (got 2)",
      );
    expect(refusal(() => fit("errors in both", ofFlow, uncertainQ)).message).toBe(
      "pressure_uncertainty: one column is needed (got 2)",
    );
    const wide = u_flow.map((value) => [value, 0, 0]);
    expect(refusal(() => fit("errors in both", uncertainP, wide)).message).toBe(
      "flow_uncertainty: the columns are: uncertainty and correlation (got 3)",
    );
  });

  test("one uncertainty for all is the same as that one in every row; readings may lie in a row", () => {
    const every = (value: number) => pressures.map(() => [value]);
    const asColumns = fit("errors in both", every(2), every(1.5));
    expect(fit("errors in both", [[2]], [[1.5]])).toEqual(asColumns);
    expect(fit("errors in both", 2, 1.5)).toEqual(asColumns);
    const across = leakageFit([pressures], [flows], "errors in both", undefined, undefined, [u_pressure], [u_flow]);
    expect(across).toEqual(fit("errors in both", uncertainP, uncertainQ));
  });

  test("the uncertainty of a reading that does not count is not looked at", () => {
    const include = column(["yes", "yes", "no", "yes", "yes"]);
    const gap = u_pressure.map((value, index) => [index === 2 ? "" : value]);
    const table = leakageFit(p, q, "errors in both", undefined, include, gap, uncertainQ);
    expect(valueOf(table, "count")).toBe(4);
  });

  test("flows in another unit with their uncertainties: n and its limits stay", () => {
    const inCfm = (values: readonly number[]) => column(values.map((value) => value / 1.69901082));
    const here = fit("errors in both", uncertainP, uncertainQ);
    const there = leakageFit(p, inCfm(flows), "errors in both", undefined, undefined, uncertainP, inCfm(u_flow));
    for (const symbol of ["n", "s_n"]) expectAgreement(valueOf(there, symbol), valueOf(here, symbol), 1e-11, FIFTEEN);
    expectAgreement(valueOf(there, "C") * 1.69901082, valueOf(here, "C"), 1e-11, FIFTEEN);
  });

  test.each([
    ["ordinary", [[1]], undefined, "#VALUE!", "pressure_uncertainty"],
    ["organic correlation", undefined, [[1]], "#VALUE!", "flow_uncertainty"],
    ["weighted", [[1]], undefined, "#N/A", "flow_uncertainty"],
    ["weighted", undefined, [[""]], "#N/A", "flow_uncertainty"],
    ["weighted", undefined, [[null]], "#N/A", "flow_uncertainty"],
    ["weighted", undefined, [[0]], "#VALUE!", "flow_uncertainty"],
    ["weighted", undefined, [[-1]], "#VALUE!", "flow_uncertainty"],
    ["weighted", undefined, [["a"]], "#VALUE!", "flow_uncertainty"],
    ["weighted", undefined, [[1], [2]], "#VALUE!", "flow_uncertainty"],
    [
      "weighted",
      undefined,
      [
        [1, 1],
        [1, 1],
        [1, 1],
        [1, 1],
        [1, 1],
      ],
      "#VALUE!",
      "flow_uncertainty",
    ],
    ["weighted", undefined, [[1], [1], [""], [1], [1]], "#N/A", "flow_uncertainty: row 3"],
    ["weighted organic correlation", undefined, undefined, "#N/A", "pressure_uncertainty"],
    ["errors in both", undefined, [[1]], "#N/A", "pressure_uncertainty"],
    ["errors in both", [[0]], [[0]], "#VALUE!", "flow_uncertainty, row 1"],
    ["robust", undefined, undefined, "#VALUE!", "technique"],
  ])("%s with pressures' %j and flows' %j: %s naming %s", (technique, ofPressure, ofFlow, code, argument) => {
    expect(() => fit(technique, ofPressure, ofFlow)).toThrow(
      expect.objectContaining({ code, message: expect.stringContaining(argument) as string }),
    );
  });

  test("no pressure uncertainty typed as 0: errors in both is weighted least squares", () => {
    const [both, weighted] = [fit("errors in both", 0, uncertainQ), fit("weighted", undefined, uncertainQ)];
    for (const symbol of ["n", "C", "s_n", "q50"]) {
      expectAgreement(valueOf(both, symbol), valueOf(weighted, symbol), 1e-12, "the limiting case");
    }
  });
});
