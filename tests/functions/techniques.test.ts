import { describe, expect, test } from "vitest";
import { fitResiduals, flowExponent, leakageCoefficient, leakageFit, testResult } from "../../src/functions";
import { expectAgreement } from "../authorities/support/compare";
import { block, column, limitsOf, valueOf } from "../authorities/support/sheet";
import { refusal } from "./errors";
import vectors from "../authorities/uncertainty-vectors/vectors.json";

const vector = vectors.fits[1];
if (!vector) throw new Error("no fit");
const { pressures, flows, u_pressure, u_flow, expected } = vector;
const [p, q, uncertainP, uncertainQ] = [pressures, flows, u_pressure, u_flow].map((values) => column(values)) as [
  unknown[][],
  unknown[][],
  unknown[][],
  unknown[][],
];
const beside = (second: readonly unknown[]) => u_flow.map((value, row) => [value, second[row]]);
const FIFTEEN = "the vectors have fifteen digits";

const fit = (technique: string, ofPressure?: unknown, ofFlow?: unknown) =>
  leakageFit(p, q, technique, undefined, undefined, ofPressure as unknown[][], ofFlow as unknown[][]);

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
      expect(refusal(() => fit(technique, uncertainP, ofFlow)).message).toBe("flow_uncertainty: one column is needed");
    expect(refusal(() => fit("errors in both", ofFlow, uncertainQ)).message).toBe(
      "pressure_uncertainty: one column is needed",
    );
    const wide = u_flow.map((value) => [value, 0, 0]);
    expect(refusal(() => fit("errors in both", uncertainP, wide)).message).toBe(
      "flow_uncertainty: one column is needed",
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

describe("the other functions of the curve by technique", () => {
  test("C and n", () => {
    expectAgreement(flowExponent(p, q, "weighted"), expected.weighted_q2_relative.n, 1e-12, FIFTEEN);
    expectAgreement(leakageCoefficient(p, q, "organic correlation"), expected.organic.C, 1e-12, FIFTEEN);
    const call = () => flowExponent(p, q, "errors in both");
    expect(call).toThrow(expect.objectContaining({ code: "#N/A" }));
  });

  test("FITRESIDUALS: residuals off that technique's line, and the line without each reading", () => {
    const rows = fitResiduals(p, q, "organic correlation");
    const { n, C } = expected.organic;
    rows.forEach((row, index) => {
      const fitted = C * (pressures[index] ?? NaN) ** n;
      expectAgreement(Number(row[0]), fitted, 1e-12, FIFTEEN);
      expectAgreement(Number(row[1]), 100 * ((flows[index] ?? NaN) / fitted - 1), 1e-9, "a residual is a difference");
      const include = pressures.map((_, other) => [other === index ? "no" : "yes"]);
      expectAgreement(Number(row[4]), flowExponent(p, q, "organic correlation", include), 1e-12, "the same line");
    });
  });

  test("FITRESIDUALS leaves blank what a reading leaves undetermined: without the last the flows do not rise", () => {
    const rows = fitResiduals(column([20, 30, 40, 60]), column([100, 99, 98, 200]), "organic correlation");
    expect(rows[3]?.slice(3)).toEqual(["", "", ""]);
    expect(rows[0]?.slice(3).every((cell) => typeof cell === "number")).toBe(true);
  });
});

describe("TESTRESULT by technique", () => {
  const run = (settings: Record<string, string | number>, units = "SI") =>
    testResult(
      "pressurization",
      p,
      q,
      [[0]],
      [[0]],
      [
        ...block({
          volume: 420,
          "flow basis": "through the envelope",
          "indoor temperature": units === "IP" ? 68 : 20,
          "outdoor temperature": units === "IP" ? 41 : 5,
          units,
          ...settings,
        }),
      ],
    );
  const stated = { "pressure uncertainty": 2, "flow uncertainty": 0.01 };

  test("settings give one uncertainty for all readings: Pa, and a fraction of each flow", () => {
    const whole = run({ technique: "errors in both", ...stated });
    const curve = fit("errors in both", 2, column(flows.map((flow) => 0.01 * flow)));
    for (const symbol of ["n", "C", "s_n", "s_lnC", "t"]) {
      expectAgreement(valueOf(whole, symbol), valueOf(curve, symbol), 1e-12, "the same fit");
    }
    expect(whole.find((row) => row[1] === "dof")?.[2]).toBe("infinite");
  });

  test("the flow basis and the units change flows and their uncertainties alike: n stays", () => {
    const settings = { technique: "errors in both", ...stated };
    const here = valueOf(run(settings), "n");
    const bases = ["indicated at calibration density", "actual at the fan"];
    for (const basis of bases)
      expectAgreement(valueOf(run({ ...settings, "flow basis": basis }), "n"), here, 1e-12, "the same weights");
    for (const units of ["SI L/s", "IP"])
      expectAgreement(valueOf(run(settings, units), "n"), here, 1e-12, "the same weights");
  });

  test("without them the technique waits, and the message says which setting", () => {
    expect(() => run({ technique: "errors in both", "flow uncertainty": 0.01 })).toThrow(
      expect.objectContaining({
        code: "#N/A",
        message: expect.stringContaining("settings: pressure uncertainty") as string,
      }),
    );
  });

  test("an uncertainty of the pressures alone does not turn the weights into q² without a word", () => {
    expect(() => run({ technique: "weighted", "pressure uncertainty": 2 })).toThrow(
      expect.objectContaining({
        code: "#N/A",
        message: expect.stringContaining("settings: flow uncertainty") as string,
      }),
    );
  });

  test("a percentage typed as a whole number is refused", () => {
    expect(() => run({ technique: "weighted", "flow uncertainty": 1 })).toThrow(
      /flow uncertainty:? a fraction, 0.01 for 1 %/,
    );
  });

  test("the ordinary technique does not look at them", () => {
    expect(run({ technique: "ordinary", ...stated })).toEqual(run({ technique: "ordinary" }));
  });

  test("a standard that weighs by q² keeps its weights until the tester names a technique", () => {
    const standard = { standard: "CGSB 149.10" };
    expect(valueOf(run({ ...standard, ...stated }), "n")).toBe(valueOf(run(standard), "n"));
    expectAgreement(valueOf(run(standard), "n"), expected.weighted_q2_relative.n, 1e-12, FIFTEEN);
    expect(valueOf(run({ ...standard, technique: "weighted", ...stated }), "n")).not.toBe(valueOf(run(standard), "n"));
  });
});
