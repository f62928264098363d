import { describe, expect, test } from "vitest";
import { conformanceProbability, decisionRisk, passFail } from "../../src/functions";
import { refusal } from "./errors";

const given = (...cells: readonly unknown[]) => {
  const [result, u, target, mean, deviation, rule, degrees, headings] = cells;
  const range = (cell: unknown) => [[cell]];
  return decisionRisk(
    range(result),
    range(u),
    range(target),
    range(mean),
    range(deviation),
    rule as string | null,
    range(degrees),
    headings as string | null,
  ) as unknown[][];
};
const rowOf = (table: unknown[][], symbol: string) => table.find((cells) => cells[1] === symbol)!;
const valueOf = (table: unknown[][], symbol: string) => rowOf(table, symbol)[2];

describe("DECISIONRISK", () => {
  test("fifteen rows of seven columns, with headings where wanted", () => {
    const table = given(0.58, 0.015, 0.6);
    expect(table.map(({ length }) => length)).toEqual(Array(15).fill(7));
    const headed = given(0.58, 0.015, 0.6, "", "", null, "", "yes");
    expect(headed[0]).toEqual(["what it is", "symbol", "value", "lower", "upper", "unit", "source"]);
    expect(headed.slice(1)).toEqual(table);
    expect(new Set(table.map((cells) => String(cells[1]).toLowerCase())).size).toBe(15);
  });

  test.each(["plain", "guarded acceptance", "guarded rejection"])(
    "%s: verdict and probability are those of PASSFAIL and CONFORMANCEPROBABILITY",
    (rule) => {
      for (const result of [0.5, 0.565, 0.58, 0.61, 0.63, 0.7]) {
        const table = given(result, 0.02, 0.6, "", "", rule, 5);
        // t(0.975, 5) is 2.5706 in published tables.
        expect(valueOf(table, "verdict")).toBe(passFail([[result]], [[0.6]], [[2.570582 * 0.02]], rule)[0]![0]);
        expect(valueOf(table, "p_c")).toBe(conformanceProbability([[result]], [[0.02]], [[0.6]], [[5]])[0]![0]);
        const [, , , lower, upper] = rowOf(table, "result");
        expect(lower).toBeCloseTo(result * Math.exp((-2.570582 * 0.02) / result), 6);
        expect(upper).toBeCloseTo(result * Math.exp((2.570582 * 0.02) / result), 6);
      }
    },
  );

  test("without a prior its rows are blank and say what is missing", () => {
    const table = given(0.58, 0.015, 0.6);
    for (const symbol of ["p_c_prior", "p_prior", "R_C_spec_prior", "R_C", "R_P"]) {
      expect(valueOf(table, symbol), symbol).toBe("");
      expect(rowOf(table, symbol)[6], symbol).toBe("blank: prior_mean and prior_deviation are not given");
    }
    expect(given(0.58, 0.015, 0.6, 0, null, "plain", "infinite")).toEqual(table);
  });

  test("a specific risk belongs to the decision taken: of a pass, of a fail, of neither", () => {
    const risks = (result: number, rule: string) => {
      const table = given(result, 0.015, 0.6, 0.55, 0.1, rule);
      const value = (symbol: string) => valueOf(table, symbol);
      const sum = (a: unknown, b: unknown) => Number(value(a as string)) + Number(value(b as string));
      return { value, sum, source: (symbol: string) => rowOf(table, symbol)[6] };
    };
    const pass = risks(0.58, "plain");
    expect(pass.sum("R_C_spec", "p_c")).toBeCloseTo(1, 12);
    expect(pass.sum("R_C_spec_prior", "p_c_prior")).toBeCloseTo(1, 12);
    expect([pass.value("R_P_spec"), pass.source("R_P_spec")]).toEqual(["", 'blank: the verdict is "pass"']);
    const fail = risks(0.61, "plain");
    expect(fail.value("R_P_spec")).toBe(fail.value("p_c"));
    expect(fail.value("R_P_spec_prior")).toBe(fail.value("p_c_prior"));
    expect([fail.value("R_C_spec"), fail.value("R_C_spec_prior")]).toEqual(["", ""]);
    const open = risks(0.58, "guarded acceptance");
    const specific = ["R_C_spec", "R_C_spec_prior", "R_P_spec", "R_P_spec_prior"];
    expect(specific.map(open.value)).toEqual(["", "", "", ""]);
    expect(open.source("R_C_spec")).toBe('blank: the verdict is "not proven"');
    expect(open.value("R_C")).toBeGreaterThan(0);
  });

  test("another unit changes no probability", () => {
    const [one, other] = [1, 3.6].map((unit) =>
      given(0.58 * unit, 0.015 * unit, 0.6 * unit, 0.55 * unit, 0.1 * unit, "guarded acceptance", 12),
    );
    for (const symbol of ["p_c", "p_c_prior", "p_prior", "R_C", "R_P"])
      expect(valueOf(other!, symbol), symbol).toBeCloseTo(valueOf(one!, symbol) as number, 10);
    expect(valueOf(other!, "w")).toBeCloseTo(3.6 * (valueOf(one!, "w") as number), 10);
  });

  test("a half-filled form stays calm: what is missing is named", () => {
    const missing = (...cells: readonly unknown[]) => refusal(() => given(...cells));
    expect(missing("", 0.015, 0.6)).toEqual({ code: "#N/A", message: "result: not given yet" });
    expect(missing(0.58, 0, 0.6)).toEqual({ code: "#N/A", message: "standard_uncertainty: not given yet" });
    expect(missing(0.58, 0.015, "").message).toBe("target: not given yet");
    expect(missing(0.58, 0.015, 0.6, 0.55)).toEqual({
      code: "#N/A",
      message: "prior_deviation: needed with prior_mean",
    });
    expect(missing(0.58, 0.015, 0.6, "", 0.1)).toEqual({
      code: "#N/A",
      message: "prior_mean: needed with prior_deviation",
    });
  });

  test.each([
    [["x", 0.015, 0.6], /^result: a number is needed/],
    [[-0.5, 0.015, 0.6], /^result: must be above 0/],
    [[0.58, -0.1, 0.6], /^standard_uncertainty: /],
    [[0.58, 0.015, 0.6, -1, 0.1], /^prior_mean: must be above 0/],
    [[0.58, 0.015, 0.6, 0.5, 0.1, "shared"], /^rule: "shared" is not one of/],
    [[0.58, 0.015, 0.6, 0.5, 0.1, "plain", -3], /^degrees_of_freedom: must be above 0/],
    [[0.58, 0.015, 0.6, 0.5, 0.1, "plain", "many"], /^degrees_of_freedom: a number is needed/],
  ])("an error names its argument (%#)", (cells, message) => {
    const found = refusal(() => given(...cells));
    expect(found.code).toBe("#VALUE!");
    expect(found.message).toMatch(message);
  });

  test("more than one cell where one is meant is refused", () => {
    expect(refusal(() => decisionRisk([[0.5], [0.6]], [[0.01]], [[0.6]])).message).toMatch(
      /^result: one cell is needed/,
    );
  });
});
