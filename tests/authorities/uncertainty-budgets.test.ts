import { describe, expect, test } from "vitest";
import {
  budgetRows,
  chiSquareOf,
  combine,
  contribution,
  limitsOf,
  noErrors,
  placeOf,
  readingResponse,
  rowsOfMean,
  sensitivity,
  trial,
  type Output,
  type Standard,
} from "../../src/core";
import { noiseOf, preparedTest, sourceOf, sourcesOf } from "./support/budgets";
import { expectAgreement, relativeDifference } from "./support/compare";
import vectors from "./uncertainty-vectors/vectors.json";

const BUDGET = "the file asks for 1e-9 of uncertainties and budgets";
const NOTHING = 1e-14;

const flowAt = (pressure: number): Output => ({ of: "flow", pressure });
const outputs = {
  ln_q50: flowAt(50),
  ln_q10: flowAt(10),
  ln_q4: flowAt(4),
  ln_C_L: flowAt(1),
  n: { of: "exponent" },
} satisfies Record<string, Output>;

/** Numbers that are nothing but rounding are compared as such. */
function expectClose(actual: number, expected: number, what: string): void {
  if (Math.abs(expected) < NOTHING) expect(Math.abs(actual), what).toBeLessThan(NOTHING);
  else expect(relativeDifference(actual, expected), `${what}: ${actual} against ${expected}`).toBeLessThanOrEqual(1e-9);
}

const freedom = (given: number | string) => (typeof given === "number" ? given : Infinity);

function expectFreedom(actual: number, given: number | string): void {
  if (freedom(given) === Infinity) expect(actual).toBe(Infinity);
  else expectAgreement(actual, freedom(given), 1e-9, BUDGET);
}

const [first] = vectors.budgets;
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
    const prepared = preparedTest(first.inputs, index, standard);

    test.each(Object.entries(outputs))("%s", (name, output) => {
      const expected = given[name as keyof typeof outputs];
      const response = readingResponse(prepared, output);
      let compared = 0;
      for (const [key, value] of Object.entries(expected.common)) {
        const source = sourceOf(key, { u: 1, dof: "infinite" });
        expectClose(sensitivity(source, prepared, output, response), value, `${name}, ${key}`);
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
          const source = sourceOf(key, { u: 1, dof: "infinite" });
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

describe.each(vectors.budgets)("budget %$ in fifty digits, $inputs.volume m³", ({ inputs, expected }) => {
  const prepared = [0, 1].map((index) => preparedTest(inputs, index, "ISO 9972"));
  const n50: Output = { of: "flow", pressure: 50, perSize: true };
  const rows = (output: Output) =>
    prepared.map((direction, index) => {
      const { shared, own } = sourcesOf(inputs, index);
      return budgetRows(direction, [...shared, ...own], output, noiseOf(inputs, index), String(index));
    });
  const values = prepared.map((direction) => Math.exp(trial(direction, noErrors())!(n50)) / inputs.volume);
  const total = values[0]! + values[1]!;
  const [one, other] = rows(n50);
  const mean = rowsOfMean(one!, other!, [values[0]! / total, values[1]! / total]);
  const combined = combine(mean, 0.95);

  test("every row of the mean of both directions", () => {
    const counted = mean.map((row, index) => ({ ...row, share: combined.shares[index]! }));
    for (const row of expected.rows) {
      const symbol = row.source.replace("random", "");
      const found = row.source.startsWith("random")
        ? counted.find((each) => each.symbol.endsWith(`_${symbol}`) && each.contained !== true)
        : counted.find((each) => each.symbol === row.source);
      if (!found) throw new Error(`no row ${row.source}`);
      expectClose(found.uncertainty, row.u, `u of ${row.source}`);
      expectClose(found.sensitivity, row.sensitivity, `sensitivity to ${row.source}`);
      expectClose(found.share, row.share, `share of ${row.source}`);
      expect(found.degreesOfFreedom).toBe(freedom(row.dof));
    }
    // Two rows a direction for the random part, of which one counts.
    expect(mean.length).toBe(expected.rows.length + 2);
  });

  test("combined, degrees of freedom, t, expanded and limits", () => {
    expectAgreement(total / 2, expected.n50, 1e-11, "the file asks for it");
    expectAgreement(combined.standardUncertainty, expected.relative_u, 1e-9, BUDGET);
    expectFreedom(combined.effectiveDegreesOfFreedom, expected.effective_dof);
    expect(combined.degreesOfFreedom).toBe(Math.floor(freedom(expected.effective_dof)));
    expectAgreement(combined.t, expected.t, 1e-9, BUDGET);
    expectAgreement((total / 2) * combined.expanded, expected.U, 1e-9, BUDGET);
    const limits = limitsOf(total / 2, combined, false);
    expectAgreement(limits.lower, expected.lower, 1e-9, BUDGET);
    expectAgreement(limits.upper, expected.upper, 1e-9, BUDGET);
    expectAgreement(
      combined.shares.reduce((sum, share) => sum + share, 0),
      1,
      1e-12,
      "shares are parts of a whole",
    );
  });

  test.each([0, 1])("exponent of direction %d", (index) => {
    const ofExponent = combine(rows({ of: "exponent" })[index]!, 0.95);
    const given = expected.n[index]!;
    expectAgreement(prepared[index]!.fit.exponent, given.n, 1e-11, "the file asks for it");
    expectAgreement(ofExponent.standardUncertainty, given.u, 1e-9, BUDGET);
    expectFreedom(ofExponent.effectiveDegreesOfFreedom, given.effective_dof);
    expectAgreement(ofExponent.expanded, given.U, 1e-9, BUDGET);
  });

  test.each([0, 1])("random part of direction %d, told in both ways", (index) => {
    const given = expected.random[index]!;
    const random = (output: Output) => {
      const own = rows(output)[index]!;
      return Object.fromEntries(own.slice(-2).map((row) => [row.symbol, row.uncertainty]));
    };
    expectAgreement(random(n50)[`scatter_${index}`]!, given.u_scatter_lnq50, 1e-9, BUDGET);
    expectAgreement(random(n50)[`stated_${index}`]!, given.u_stated_lnq50, 1e-9, BUDGET);
    expectAgreement(random({ of: "exponent" })[`scatter_${index}`]!, given.u_scatter_n, 1e-9, BUDGET);
    expectAgreement(random({ of: "exponent" })[`stated_${index}`]!, given.u_stated_n, 1e-9, BUDGET);
    expectAgreement(chiSquareOf(prepared[index]!, noiseOf(inputs, index)), given.chi2, 1e-9, BUDGET);
    expectAgreement(prepared[index]!.fit.residualDeviation, given.s, 1e-9, BUDGET);
  });

  test("the same contributions, added by hand as a sheet would", () => {
    const signed = (list: typeof mean) => new Map(list.map((row) => [row.symbol, contribution(row)]));
    const [k0, k1] = [signed(one!), signed(other!)];
    let sum = 0;
    for (const symbol of new Set([...k0.keys(), ...k1.keys()])) {
      sum += ((values[0]! * (k0.get(symbol) ?? 0) + values[1]! * (k1.get(symbol) ?? 0)) / total) ** 2;
    }
    expectAgreement(Math.sqrt(sum), expected.relative_u, 1e-9, BUDGET);
  });
});
