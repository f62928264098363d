import { describe, expect, test } from "vitest";
import { fitResiduals, flowExponent, leakageCoefficient, testResult } from "../../../src/functions";
import { expectAgreement } from "../../authorities/support/compare";
import { block, column, valueOf } from "../../authorities/support/sheet";
import { pressures, flows, expected, p, q, FIFTEEN, fit } from "./vectors";

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
      /flow uncertainty:? a fraction, 0.02 for 2 %/,
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
