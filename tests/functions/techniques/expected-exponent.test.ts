import { describe, expect, test } from "vitest";
import { flowExponent, fitResiduals, leakageCoefficient, resultCard, testResult } from "../../../src/functions";
import { exact } from "../../authorities/high-precision/decimal";
import { expectedExponent, type Points } from "../../authorities/high-precision/techniques";
import { expectAgreement } from "../../authorities/support/compare";
import { block, column, limitsOf, valueOf } from "../../authorities/support/sheet";
import { refusal } from "../errors";
import { fit, flows, p, pressures, q, uncertainP, uncertainQ, u_flow, u_pressure } from "./vectors";

const technique = "weighted with expected exponent";
const FIFTY = "the same line in fifty digits; the iteration stops when n moves by 1e-13 of itself";

const ln = (values: readonly number[]) => values.map((value) => exact(value).ln());
const relative = (uncertainties: readonly number[], values: readonly number[]) =>
  uncertainties.map((uncertainty, index) => exact(uncertainty).dividedBy(exact(values[index] ?? NaN)));
const points: Points = { x: ln(pressures), y: ln(flows) };
const ux = relative(u_pressure, pressures);
const uy = relative(u_flow, flows);
const cell = (table: readonly (readonly unknown[])[], symbol: string) => table.find((row) => row[1] === symbol)?.[2];

describe("LEAKAGEFIT with expected exponent", () => {
  test.each([
    ["nothing stated", fit(technique), points],
    ["pressures stated", fit(technique, uncertainP), { ...points, ux }],
    ["flows stated", fit(technique, undefined, uncertainQ), { ...points, uy }],
    ["both stated", fit(technique, uncertainP, uncertainQ), { ...points, ux, uy }],
  ])("%s", (_, table, given) => {
    const line = expectedExponent(given);
    expectAgreement(valueOf(table, "n"), line.n.toNumber(), 1e-11, FIFTY);
    expectAgreement(valueOf(table, "C"), line.a.exp().toNumber(), 1e-11, FIFTY);
    expectAgreement(valueOf(table, "s_n"), line.varianceN.sqrt().toNumber(), 1e-11, FIFTY);
    expectAgreement(valueOf(table, "s_lnC"), line.varianceA.sqrt().toNumber(), 1e-11, FIFTY);
    expectAgreement(valueOf(table, "n_data"), line.prior?.ofReadings.toNumber() ?? NaN, 1e-11, FIFTY);
    expectAgreement(valueOf(table, "prior_share"), line.prior?.share.toNumber() ?? NaN, 1e-11, FIFTY);
  });

  test("n and s_n follow from the table's own rows, as the equation says", () => {
    const table = fit(technique);
    const [n, share, own] = [valueOf(table, "n"), valueOf(table, "prior_share"), valueOf(table, "n_data")];
    expectAgreement(n, share * 0.65 + (1 - share) * own, 1e-12, "the table's own figures");
    expectAgreement(valueOf(table, "s_n"), 0.057 * Math.sqrt(share), 1e-14, "the table's own figures");
    const half = valueOf(table, "t") * valueOf(table, "s_n");
    expectAgreement(limitsOf(table, "n").upper - n, half, 1e-10, "the table's own figures");
    expect(cell(table, "dof")).toBe(pressures.length - 2);
  });

  test("both rows are blank for every other technique", () => {
    for (const other of ["ordinary", "weighted", "organic correlation"]) {
      const rows = fit(other).filter(([, symbol]) => symbol === "n_data" || symbol === "prior_share");
      expect(rows).toEqual([
        ["flow exponent of the readings alone", "n_data", "", "", "", "–", ""],
        ["share of the expected exponent in n", "prior_share", "", "", "", "–", ""],
      ]);
    }
  });

  test("blank cells are not stated: 1 Pa and 1 % are assumed; a column with a gap is refused", () => {
    const nothing = fit(technique);
    const blank = pressures.map(() => [""]);
    for (const empty of [[[""]], [[null]], blank]) expect(fit(technique, empty, empty)).toEqual(nothing);
    expect(fit(technique, 1, column(flows.map((flow) => 0.01 * flow)))).not.toEqual(nothing);
    const gap = uncertainP.map((row, index) => (index === 1 ? [""] : row));
    expect(refusal(() => fit(technique, gap))).toMatchObject({
      code: "#N/A",
      message: "pressure_uncertainty: row 2 has none",
    });
    expect(refusal(() => fit("errors in both", [[""]], uncertainQ)).code).toBe("#N/A");
  });
});

test("FLOWEXPONENT, LEAKAGECOEFFICIENT and FITRESIDUALS weigh by 1 Pa and 1 %", () => {
  const table = fit(technique);
  expect(flowExponent(p, q, technique)).toBe(valueOf(table, "n"));
  expect(leakageCoefficient(p, q, technique)).toBe(valueOf(table, "C"));
  const fitted = valueOf(table, "C") * (pressures[0] ?? NaN) ** valueOf(table, "n");
  expectAgreement(Number(fitResiduals(p, q, technique)[0]?.[0]), fitted, 1e-12, "the same line");
});

describe("TESTRESULT with expected exponent", () => {
  const given = (settings: Record<string, string | number>) =>
    block({
      volume: 420,
      "flow basis": "through the envelope",
      "indoor temperature": 20,
      "outdoor temperature": 5,
      technique,
      ...settings,
    });
  const run = (settings: Record<string, string | number> = {}) =>
    testResult("pressurization", p, q, [[0]], [[0]], given(settings));
  const symbols = ["n", "C", "s_n", "s_lnC", "t", "n_data", "prior_share"];

  test.each([
    ["nothing", {}, fit(technique)],
    ["the pressures'", { "pressure uncertainty": 2 }, fit(technique, 2)],
    ["the flows'", { "flow uncertainty": 0.02 }, fit(technique, undefined, column(flows.map((flow) => 0.02 * flow)))],
    [
      "both",
      { "pressure uncertainty": 2, "flow uncertainty": 0.02 },
      fit(technique, 2, column(flows.map((flow) => 0.02 * flow))),
    ],
  ])("settings give %s: the same line as LEAKAGEFIT", (_, settings, curve) => {
    const whole = run(settings);
    for (const symbol of symbols) {
      expectAgreement(valueOf(whole, symbol), valueOf(curve, symbol), 1e-12, "the same fit");
    }
  });

  test("the ordinary line leaves the rows of the prior blank, and every older row keeps its place", () => {
    const whole = run({ technique: "ordinary" });
    expect([cell(whole, "n_data"), cell(whole, "prior_share")]).toEqual(["", ""]);
    const place = (symbol: string) => whole.findIndex((row) => row[1] === symbol);
    expect(place("EqLA10")).toBe(35);
    expect([place("n_data"), place("prior_share")]).toEqual([36, 37]);
  });

  test("the card shows what the prior weighed", () => {
    const card = resultCard("pressurization", p, q, [[0]], [[0]], given({})) as {
      properties: Record<string, { basicValue: number }>;
    };
    expect(card.properties["prior_share"]?.basicValue).toBe(valueOf(run(), "prior_share"));
    expect(card.properties["n_data"]?.basicValue).toBe(valueOf(run(), "n_data"));
  });
});
