import { describe, expect, test } from "vitest";
import { leakageFit, leakageFlow } from "../../../src/functions";
import { expectAgreement } from "../../authorities/support/compare";
import { column, limitsOf, single, valueOf } from "../../authorities/support/sheet";
import vectors from "../../authorities/uncertainty-vectors/vectors.json";
import { refusal } from "../errors";
import { type Table, ESTIMATE, UNCERTAINTY } from "./curve-cells";

const DERIVED = "a difference of the table's own figures";

interface Fitted {
  readonly pressures: readonly number[];
  readonly flows: readonly number[];
  readonly u_pressure?: readonly number[];
  readonly u_flow?: readonly number[];
  readonly correlation_xy?: readonly number[];
}

/** The technique of an entry, and which of the readings' uncertainties it is told. */
const entries: Readonly<Record<string, readonly [string, ofPressure: boolean, ofFlow: boolean]>> = {
  ordinary: ["ordinary", false, false],
  weighted_q2_relative: ["weighted", false, false],
  weighted_stated_uy: ["weighted", false, true],
  weighted_effective_iterated: ["weighted", true, true],
  organic: ["organic correlation", false, false],
  weighted_organic: ["weighted organic correlation", true, true],
  york: ["errors in both", true, true],
  york_correlated: ["errors in both", true, true],
};

function fitted(entry: string, { pressures, flows, u_pressure = [], u_flow = [], correlation_xy }: Fitted): Table {
  const [technique, ofPressure, ofFlow] = entries[entry]!;
  const withCorrelation = u_flow.map((value, row) => [value, correlation_xy?.[row]]);
  return leakageFit(
    column(pressures),
    column(flows),
    technique,
    undefined,
    undefined,
    ofPressure ? column(u_pressure) : undefined,
    ofFlow ? (entry === "york_correlated" ? withCorrelation : column(u_flow)) : undefined,
  ) as Table;
}

/** √(χ²/(N − 2)) where it exceeds 1 and uncertainties are stated. */
const enlargement = (entry: string, chi2: number | undefined, count: number) =>
  entries[entry]![2] && chi2 !== undefined ? Math.max(1, Math.sqrt(chi2 / (count - 2))) : 1;

const cases = vectors.fits.flatMap((fit) =>
  Object.entries(fit.expected).flatMap(([entry, expected]) =>
    entry.startsWith("not_to_implement_") ? [] : [{ name: fit.name, entry, fit: fit, expected }],
  ),
);

describe.each(cases)("LEAKAGEFIT, $entry of '$name'", ({ entry, fit, expected }) => {
  const of = expected as Record<"n" | "C" | "u_n" | "u_lnC" | "q50" | "u_lnq50" | "q10" | "u_lnq10" | "q4", number> & {
    readonly chi2?: number;
    readonly r2?: number;
  };
  const table = fitted(entry, fit);
  const larger = enlargement(entry, of.chi2, fit.pressures.length);
  const [n, C, t] = ["n", "C", "t"].map((symbol) => valueOf(table, symbol)) as [number, number, number];

  test("estimates", () => {
    expectAgreement(n, of.n, 1e-11, ESTIMATE);
    expectAgreement(C, of.C, 1e-11, ESTIMATE);
    expectAgreement(valueOf(table, "q50"), of.q50, 1e-11, ESTIMATE);
    expectAgreement(single(leakageFlow([[C]], [[n]], [[10]])), of.q10, 1e-11, ESTIMATE);
    expectAgreement(single(leakageFlow([[C]], [[n]], [[4]])), of.q4, 1e-11, ESTIMATE);
    if (of.r2 !== undefined) expectAgreement(valueOf(table, "r2"), of.r2, 1e-11, ESTIMATE);
  });

  test("standard errors and limits", () => {
    expectAgreement(valueOf(table, "s_n"), of.u_n * larger, 1e-9, UNCERTAINTY);
    expectAgreement(valueOf(table, "s_lnC"), of.u_lnC * larger, 1e-9, UNCERTAINTY);
    expectAgreement(limitsOf(table, "n").upper - n, t * of.u_n * larger, 1e-9, UNCERTAINTY);
    const halfWidth = Math.log(limitsOf(table, "q50").upper / of.q50) / t;
    expectAgreement(halfWidth, of.u_lnq50 * larger, 1e-9, UNCERTAINTY);
  });

  test("covariance of n and ln C, and with it the uncertainty at any pressure, follow from the table", () => {
    const [u_n, u_lnC] = [valueOf(table, "s_n"), valueOf(table, "s_lnC")];
    const at50 = Math.log(limitsOf(table, "q50").upper / valueOf(table, "q50")) / t;
    const covariance = (at50 ** 2 - u_lnC ** 2 - (Math.log(50) * u_n) ** 2) / (2 * Math.log(50));
    const squared = u_lnC ** 2 + 2 * Math.log(10) * covariance + (Math.log(10) * u_n) ** 2;
    expectAgreement(Math.sqrt(squared), of.u_lnq10 * larger, 1e-6, DERIVED);
  });
});

test("errors in both of plain x and y: of e^x and e^y", () => {
  const { x, y, weight_x, weight_y, expected } = vectors.pearson_york;
  const [pressures, flows] = [x, y].map((values) => values.map(Math.exp)) as [number[], number[]];
  const scaled = (values: readonly number[], weights: readonly number[]) =>
    values.map((value, row) => value / Math.sqrt(weights[row]!));
  const [u_pressure, u_flow] = [scaled(pressures, weight_x), scaled(flows, weight_y)];
  const table = fitted("york", { pressures, flows, u_pressure, u_flow });
  const larger = enlargement("york", expected.chi2, x.length);
  expectAgreement(valueOf(table, "n"), expected.slope, 1e-11, ESTIMATE);
  expectAgreement(Math.log(valueOf(table, "C")), expected.intercept, 1e-11, ESTIMATE);
  expectAgreement(valueOf(table, "s_n"), expected.u_slope * larger, 1e-9, UNCERTAINTY);
  expectAgreement(valueOf(table, "s_lnC"), expected.u_intercept * larger, 1e-9, UNCERTAINTY);
});

test.each(vectors.t_quantile_975)("t for $dof degrees of freedom", ({ dof, t }) => {
  const pressures = Array.from({ length: typeof dof === "number" ? dof + 2 : 3 }, (_, row) => row + 1);
  const fit = { pressures, flows: pressures, u_flow: pressures };
  expectAgreement(
    valueOf(fitted(typeof dof === "number" ? "ordinary" : "weighted_stated_uy", fit), "t"),
    t,
    1e-11,
    ESTIMATE,
  );
});

describe("degenerate readings", () => {
  const rows = vectors.degenerate.flatMap(({ case: name, pressures, flows, techniques, expect: says }) =>
    pressures && flows
      ? Object.keys(entries)
          .filter(
            (entry) => entry !== "york_correlated" && (!/organic/.test(techniques ?? "") || /organic/.test(entry)),
          )
          .map((entry) => ({ name, pressures, flows, entry, says }))
      : [],
  );

  test.each(rows)("$name, $entry: $says", ({ pressures, flows, entry, says }) => {
    const stated = { u_pressure: pressures.map(() => 0.3), u_flow: flows.map(() => 2) };
    const call = () => fitted(entry, { pressures, flows, ...stated });
    const [, power] = /^n = (\S+), s = 0/.exec(says) ?? [];
    if (power !== undefined) {
      const table = call();
      expectAgreement(valueOf(table, "n"), Number(power), 1e-14, "an exact power law");
      if (!entries[entry]![2]) expect(valueOf(table, "s_n")).toBeLessThan(1e-14);
      return;
    }
    const { code, message } = refusal(call);
    expect(code).toBe(says.startsWith("not available") ? "#N/A" : "#VALUE!");
    if (says.includes("naming the row")) expect(message).toMatch(/row \d/);
    const [, rule = ""] = /^error: ([^(]*?) *(?:\(|$)/.exec(says) ?? [];
    expect(message).toContain(rule);
  });
});
