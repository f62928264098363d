import { describe, expect, test } from "vitest";
import {
  baselineSources,
  budgetRows,
  combine,
  contribution,
  limitsOf,
  noErrors,
  ownSources,
  placeOf,
  readingResponse,
  rectangular,
  rowsOfMean,
  sensitivity,
  stackHalfWidth,
  trial,
  windHalfWidth,
  type BudgetRow,
  type Output,
  type Standard,
} from "../../src/core";
import { baselineSetsOf, densitiesOf, freedom, preparedTest, sourceOf, sourcesOf } from "./support/budgets";
import { expectAgreement, relativeDifference } from "./support/compare";
import { budgets } from "./uncertainty-vectors/program/stored";
import vectors from "./uncertainty-vectors/vectors.json";

const BUDGET = "the file asks for 1e-9 of uncertainties and budgets";
const NOTHING = 1e-14;

const flowAt = (pressure: number): Output => ({ of: "flow", pressure });
const exponent: Output = { of: "exponent" };
const outputs = {
  ln_q50: flowAt(50),
  ln_q10: flowAt(10),
  ln_q4: flowAt(4),
  ln_C_L: flowAt(1),
  n: exponent,
} satisfies Record<string, Output>;

/** Numbers that are nothing but rounding are compared as such. */
function expectClose(actual: number, expected: number, what: string): void {
  if (Math.abs(expected) < NOTHING) expect(Math.abs(actual), what).toBeLessThan(NOTHING);
  else expect(relativeDifference(actual, expected), `${what}: ${actual} against ${expected}`).toBeLessThanOrEqual(1e-9);
}

function expectFreedom(actual: number, given: number | "infinite"): void {
  if (given === "infinite") expect(actual).toBe(Infinity);
  else expectAgreement(actual, given, 1e-9, BUDGET);
}

const [first] = budgets;
if (!first) throw new Error("budgets are expected");

const { iso, e779 } = vectors.sensitivities;
describe.each([
  ["ISO 9972", 0, iso[0]],
  ["ISO 9972", 1, iso[1]],
  ["ASTM E779", 0, e779[0]],
  ["ASTM E779", 1, e779[1]],
] as [Standard, number, (typeof iso)[number]][])(
  "sensitivities in fifty digits, %s, direction %d",
  (standard, index, given) => {
    const prepared = preparedTest(first, index, standard);

    test.each(Object.entries(outputs))("%s", (name, output) => {
      const expected = given[name as keyof typeof outputs];
      const response = readingResponse(prepared, output);
      let compared = 0;
      for (const [key, value] of Object.entries(expected.common)) {
        expectClose(sensitivity(sourceOf(key), prepared, output, response), value, `${name}, ${key}`);
        compared++;
      }
      // Eleven rows of the test, γ and m of each opening, and the wind's offset.
      expect(compared).toBe(12 + 2 * Object.keys(first.inputs.openings).length);
      if ("per_flow_log" in expected) {
        expected.per_flow_log.forEach((value, row) =>
          expectClose(response.toFlow[row]!, value, `flow of row ${row + 1}`),
        );
        expected.per_pressure_Pa.forEach((value, row) => {
          const perPa = (prepared.side * response.toPressure[row]!) / prepared.points[row]!.pressure;
          expectClose(perPa, value, `pressure of row ${row + 1}`);
        });
      }
      if ("per_fan_pressure_Pa" in expected) {
        expected.per_fan_pressure_Pa.forEach((value, row) => {
          const { exponent, pressure = NaN } = prepared.readings[row]!.fan;
          expectClose((response.toFlow[row]! * exponent) / pressure, value, `fan pressure of row ${row + 1}`);
        });
      }
    });

    test.each(Object.entries(outputs))(
      "%s: the model itself gives the value and, by central differences, every sensitivity",
      (name, output) => {
        const expected = given[name as keyof typeof outputs];
        expectAgreement(trial(prepared, noErrors())!(output), expected.value, 1e-12, "fifteen digits are given");
        for (const [key, value] of Object.entries(expected.common)) {
          const source = sourceOf(key);
          const step = key === "pb" ? 10 : key.startsWith("t") ? 1e-2 : 1e-4;
          const moved = [step, -step].map((amount) => {
            const errors = noErrors();
            errors[placeOf(source)] = amount;
            return trial(prepared, errors)!(output);
          });
          const difference = (moved[0]! - moved[1]!) / (2 * step);
          expect(Math.abs(difference - value), `${key}: ${difference} against ${value}`).toBeLessThan(
            1e-7 * Math.abs(value) + 1e-10,
          );
        }
      },
    );
  },
);

describe.each(budgets)("budget in fifty digits: $inputs.name", (vector) => {
  const { inputs, expected } = vector;
  const n50: Output = { of: "flow", pressure: 50, perSize: true };
  const directions = inputs.directions.map((_, index) => preparedTest(vector, index));
  const rows = (output: Output) =>
    directions.map((direction, index) => budgetRows(direction, sourcesOf(vector, index), output, String(index)));
  const values = directions.map((direction) => Math.exp(trial(direction, noErrors())!(n50)) / inputs.volume);
  const total = values.reduce((sum, value) => sum + value, 0);
  const mean = rowsOfMean(rows(n50).map((list, index) => ({ rows: list, weight: values[index]! / total })));
  const combined = combine(mean, 0.95);
  const result = total / values.length;

  test("every row of the mean", () => {
    const counted = mean.map((row, index) => ({ ...row, share: combined.shares[index]! }));
    for (const row of expected.rows) {
      const symbol = row.source.replace("random", "scatter_");
      const found = counted.find((each) => each.symbol === symbol);
      if (!found) throw new Error(`no row ${symbol}`);
      expectClose(found.uncertainty, row.u, `u of ${row.source}`);
      expectClose(found.sensitivity, row.sensitivity, `sensitivity to ${row.source}`);
      expectClose(found.share, row.share, `share of ${row.source}`);
      expectFreedom(found.degreesOfFreedom, row.dof);
    }
    // A further row per direction shows the noise as it is stated or assumed, and does not count.
    expect(mean.length).toBe(expected.rows.length + directions.length);
  });

  test("combined, degrees of freedom, t, expanded and limits", () => {
    expectAgreement(result, expected.n50, 1e-11, "the file asks for it");
    expectAgreement(combined.standardUncertainty, expected.relative_u, 1e-9, BUDGET);
    expectFreedom(combined.effectiveDegreesOfFreedom, expected.effective_dof);
    expect(combined.degreesOfFreedom).toBe(Math.floor(freedom(expected.effective_dof)));
    expectAgreement(combined.t, expected.t, 1e-9, BUDGET);
    expectAgreement(result * combined.expanded, expected.U, 1e-9, BUDGET);
    const limits = limitsOf(result, combined.expanded);
    expectAgreement(limits.lower, expected.lower, 1e-9, BUDGET);
    expectAgreement(limits.upper, expected.upper, 1e-9, BUDGET);
    expectAgreement(
      combined.shares.reduce((sum, share) => sum + share, 0),
      1,
      1e-12,
      "shares are parts of a whole",
    );
  });

  test("exponent of each direction", () => {
    rows(exponent).forEach((list, index) => {
      const ofExponent = combine(list, 0.95);
      const given = expected.n[index]!;
      expectAgreement(directions[index]!.fit.exponent, given.n, 1e-11, "the file asks for it");
      expectAgreement(ofExponent.standardUncertainty, given.u, 1e-9, BUDGET);
      expectFreedom(ofExponent.effectiveDegreesOfFreedom, given.effective_dof);
      expectAgreement(ofExponent.t, given.t, 1e-9, BUDGET);
      expectAgreement(ofExponent.expanded, given.U, 1e-9, BUDGET);
    });
  });

  test.each(Object.entries(outputs))("random part of each direction: %s", (name, output) => {
    rows(output).forEach((list, index) => {
      const given = expected.random[index]!;
      const { chiSquare, scale, degreesOfFreedom } = directions[index]!.random;
      const row = list.find(({ symbol }) => symbol === `scatter_${index}`);
      expectAgreement(row?.uncertainty ?? NaN, given.u[name as keyof typeof outputs], 1e-9, BUDGET);
      expectAgreement(chiSquare, given.chi2, 1e-9, BUDGET);
      expectAgreement(scale ** 2, given.kappa2, 1e-9, BUDGET);
      expectFreedom(degreesOfFreedom, given.dof);
    });
  });

  test("the bend of the curve beyond the readings acts on flows there alone", () => {
    for (const [name, output] of Object.entries(outputs)) {
      directions.forEach((direction, index) => {
        const found = sensitivity(sourceOf("model"), direction, output, readingResponse(direction, output));
        expectClose(found, expected.bend[index]![name as keyof typeof outputs], `bend on ${name}`);
      });
    }
  });

  test("the sizes of the rows that the baseline, the wind and the stack effect give", () => {
    const densities = densitiesOf(inputs);
    const sizeOf = (source: string) => expected.rows.find((row) => row.source === source)?.u ?? 0;
    const stack = rectangular("stack", "offset", stackHalfWidth(0.1, inputs.height, densities));
    expectClose(stack.uncertainty, sizeOf("stack"), "stack");
    directions.forEach((direction, index) => {
      const given = inputs.directions[index]!;
      const wind = windHalfWidth(0.1, 1, densities.outdoor, inputs.wind_speed);
      const [before, after] = baselineSetsOf(given);
      const end = inputs.baseline_shared ? "" : String(index);
      for (const { symbol, uncertainty, degreesOfFreedom } of [
        ...baselineSources(before, after, end),
        ...ownSources(direction, before, after, wind, String(index)),
      ]) {
        const [name, mark = ""] = symbol.split("_");
        const source = name === "B" ? `bconst${mark}` : `${name}${mark}`;
        expectClose(uncertainty, sizeOf(source), source);
        const row = expected.rows.find((each) => each.source === source);
        if (row) expectFreedom(degreesOfFreedom, row.dof);
      }
    });
  });

  test("the same contributions, added by hand as a sheet would", () => {
    const contributions = rows(n50).map(
      (list) => new Map(list.map((row: BudgetRow) => [row.symbol, contribution(row)])),
    );
    let sum = 0;
    for (const symbol of new Set(contributions.flatMap((of) => [...of.keys()]))) {
      const parts = contributions.map((of, index) => (values[index]! / total) * (of.get(symbol) ?? 0));
      sum += parts.reduce((signed, part) => signed + part, 0) ** 2;
    }
    expectAgreement(Math.sqrt(sum), expected.relative_u, 1e-9, BUDGET);
  });
});
