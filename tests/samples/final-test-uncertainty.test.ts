import { describe, expect, it } from "vitest";
import { assumptionsFirst, assumptionsIn } from "../../sample-workbooks/final-test/assumptions";
import { depressurization, pressurization } from "../../sample-workbooks/final-test/houses";
import { metric } from "../../sample-workbooks/blocks/units";
import "./look-up";
import { studentBelow, studentQuantile } from "./student-by-hand";
import { acceptOne, cell, limitedRuns, rowCalled, summary, typed, without } from "./typed";
import { budgetByHand, meanBudgetByHand, withScatter } from "./uncertainty-by-hand";

/** Central differences over steps of a few 1e-5 keep seven digits; the shares of the smallest rows hardly count. */
const tolerance = 1e-6;

function near(value: unknown, wanted: number): void {
  expect(typeof value).toBe("number");
  expect(Math.abs((value as number) / wanted - 1), `${String(value)} against ${wanted}`).toBeLessThan(tolerance);
}

describe("the uncertainty of the result, by moving each source a little", () => {
  it("of the mean of both directions", () => {
    const test = typed({});
    const result = summary(test, "Result that decides") as number;
    const { standard, freedom } = withScatter(
      meanBudgetByHand(depressurization, pressurization),
      [limitedRuns(test, "depressurization")],
      result,
      2,
    );
    near(summary(test, "Expanded uncertainty"), studentQuantile(0.95, freedom) * standard * result);
  });

  it("of one direction that is accepted alone, and the probability that it meets the limit", () => {
    const test = typed({
      ...acceptOne,
      ...without("Pressurization"),
      ...without("Depressurization 2"),
      "Criteria!I18": "either",
      "Criteria!E18": 0.53,
    });
    const result = summary(test, "Result that decides") as number;
    const { standard, freedom } = budgetByHand("depressurization", depressurization);
    near(summary(test, "Expanded uncertainty"), studentQuantile(0.95, freedom) * standard * result);
    const probability = studentBelow(Math.log(0.53 / result) / standard, freedom);
    expect(probability).toBeGreaterThan(0.6);
    expect(probability).toBeLessThan(0.9);
    near(summary(test, "Probability"), probability);
  });
});

describe("the uncertainty that an opening has by itself, from its certificate on the sheet Firm", () => {
  const combined = (test: ReturnType<typeof typed>) =>
    cell(test, `Uncertainty!D${rowCalled(test, "Uncertainty", "Combined standard uncertainty, relative")}`) as number;

  it("counts for the opening in use, in place of that of all", () => {
    // The sample's readings all go through opening C; the flow is proportional to its coefficient, and both directions share it.
    const squares = (uncertainty: number) => combined(typed({ "Firm!H25": uncertainty })) ** 2 - uncertainty ** 2;
    near(squares(0.03), squares(0.008));
    near(combined(typed({ "Firm!H25": 0.03, "Uncertainty!D14": 0.09 })), combined(typed({ "Firm!H25": 0.03 })));
    near(combined(typed({ "Firm!H23": 0.15, "Firm!H24": 0.15 })), combined(typed({})));
  });

  it("is that of all where an opening has none, else the largest that is stated", () => {
    near(combined(typed({ "Firm!H25": null, "Uncertainty!D14": 0.03 })), combined(typed({ "Firm!H25": 0.03 })));
    const stated = { "Firm!H23": 0.03, "Firm!H24": 0.02, "Firm!H25": null, "Uncertainty!D14": null };
    near(combined(typed(stated)), combined(typed({ "Firm!H25": 0.03 })));
  });
});

describe("a baseline uncertainty that a logger tells", () => {
  const alone = { ...acceptOne, ...without("Pressurization"), ...without("Depressurization 2") };
  const lines = assumptionsIn(metric).map(({ label }) => label);
  const line = (label: string) => `Uncertainty!D${assumptionsFirst + lines.indexOf(label)}`;
  const given = (freedom: number | null) =>
    typed({ ...alone, [line("baseline uncertainty")]: 2.5, [line("baseline degrees of freedom")]: freedom });

  it.each([2, 4.6, null])("counts with its %s degrees of freedom", (typedFreedom) => {
    const test = given(typedFreedom);
    const result = summary(test, "Result that decides") as number;
    const { standard, freedom } = budgetByHand("depressurization", depressurization, {
      uncertainty: 2.5,
      freedom: typedFreedom ?? Infinity,
    });
    near(summary(test, "Expanded uncertainty"), studentQuantile(0.95, freedom) * standard * result);
  });

  it("is wider the fewer they are", () => {
    const expanded = [2, 4.6, null].map((freedom) => summary(given(freedom), "Expanded uncertainty") as number);
    expect(expanded[0]).toBeGreaterThan(1.01 * (expanded[1] as number));
    expect(expanded[1]).toBeGreaterThan(1.01 * (expanded[2] as number));
  });
});

describe("the decision rule", () => {
  const decided = (limit: number, rule: string) => {
    const test = typed({ "Criteria!E18": limit, "Criteria!J10": rule });
    const [probability, upper] = ["Probability", "Upper limit of the result"].map((label) => summary(test, label));
    return [summary(test, "Verdict"), probability as number, upper as number] as const;
  };

  it("guards a pass that is not proven, and a fail that is not", () => {
    expect(decided(0.515, "plain")[0]).toBe("pass");
    expect(decided(0.515, "guarded acceptance")[0]).toBe("not proven");
    expect(decided(0.53, "guarded acceptance")[0]).toBe("pass");
    expect(decided(0.495, "plain")[0]).toBe("fail");
    expect(decided(0.495, "guarded acceptance")[0]).toBe("not proven");
    expect(decided(0.495, "guarded rejection")[0]).toBe("pass");
    expect(decided(0.47, "guarded rejection")[0]).toBe("fail");
  });

  it("accepts where the probability is 97.5 % or more and the upper limit shown is within the criterion, and nowhere else", () => {
    for (const limit of [0.51, 0.52, 0.525, 0.526, 0.527, 0.53]) {
      const [verdict, probability, upper] = decided(limit, "guarded acceptance");
      expect(verdict === "pass", `limit ${limit}, probability ${probability}`).toBe(probability >= 0.975);
      expect(verdict === "pass", `limit ${limit}, upper limit ${upper}`).toBe(upper <= limit);
    }
  });

  it("goes by the limits of the budget of the mean", () => {
    const test = typed({});
    const result = summary(test, "Result that decides") as number;
    const { standard, freedom } = withScatter(
      meanBudgetByHand(depressurization, pressurization),
      [limitedRuns(test, "depressurization")],
      result,
      2,
    );
    const expanded = studentQuantile(0.95, freedom) * standard;
    near(summary(test, "Lower limit of the result"), result * Math.exp(-expanded));
    near(summary(test, "Upper limit of the result"), result * Math.exp(expanded));
  });
});

describe("the report's full intervals", () => {
  it("hold, for the mean, the interval that decides", () => {
    const test = typed({});
    const title = rowCalled(
      test,
      "Report",
      "Full intervals at 95 %: instruments, baseline, weather, sizes and scatter",
    );
    const row = rowCalled(test, "Report", "Air change rate at 50 Pa", title);
    expect(cell(test, `Report!J${row}`)).toBe(summary(test, "Lower limit of the result"));
    expect(cell(test, `Report!K${row}`)).toBe(summary(test, "Upper limit of the result"));
    expect(cell(test, `Report!J${row}`)).toBeLessThan(Number(summary(test, "Result that decides")));
  });
});
