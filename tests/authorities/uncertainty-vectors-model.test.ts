import { describe, expect, test } from "vitest";
import { exact } from "./high-precision/decimal";
import { expectAgreement } from "./support/compare";
import { nativeTest } from "./uncertainty-vectors/program/native-test";
import { slopes } from "./uncertainty-vectors/program/sensitivities";
import { budgets } from "./uncertainty-vectors/program/stored";
import { lnFlow, modelOf, type Outcome } from "./uncertainty-vectors/program/whole-test";
import vectors from "./uncertainty-vectors/vectors.json";

// The program that computes the budgets is itself held here to figures that it did not compute: the sensitivities of the first test, which are older.

const { iso, e779 } = vectors.sensitivities;
const outputs = {
  ln_q50: (of: Outcome) => lnFlow(of, 50),
  ln_q10: (of: Outcome) => lnFlow(of, 10),
  ln_q4: (of: Outcome) => lnFlow(of, 4),
  ln_C_L: (of: Outcome) => lnFlow(of, 1),
  n: ({ n }: Outcome) => n,
};
/** The older names of a zero shift. */
const renamed: Record<string, string> = { device_zero: "off_e", mu: "wind" };

describe.each([
  ["ISO 9972", 0, iso[0]!],
  ["ISO 9972", 1, iso[1]!],
  ["ASTM E779", 0, e779[0]!],
  ["ASTM E779", 1, e779[1]!],
] as const)("%s, direction %d", (standard, index, given) => {
  const { outcome } = modelOf({ ...budgets[0]!.inputs, standard }, index);
  const read = outcome({});
  const slope = slopes(outcome);

  test.each(Object.keys(outputs) as (keyof typeof outputs)[])("%s and its sensitivities", (name) => {
    expectAgreement(outputs[name](read).toNumber(), given[name].value, 1e-14, "fifteen digits are given");
    for (const [key, value] of Object.entries(given[name].common)) {
      const found = slope(renamed[key] ?? key, outputs[name]).toNumber();
      // An exponent does not answer to a gain: the file has the rounding of its differences there.
      if (Math.abs(value) < 1e-14) expect(found, key).toBe(0);
      else expectAgreement(found, value, 1e-13, `fifteen digits are given: ${key}`);
    }
  });
});

const allErrors = "gain_e off_e gain_f off_f gam0 gam_A m_A ti te pb phii phie B1 bconst drift wind stack".split(" ");

describe.each(budgets)("the model in doubles is that in fifty digits: $inputs.name", ({ inputs }) => {
  test.each(inputs.directions.map((_, index) => index))("direction %d", (index) => {
    // Weights by squared flows follow the flows in a simulation, while a sensitivity holds them: there only the values as read are the same.
    const isByFlows = inputs.technique === "weighted" && inputs.directions[index]!.flow_uncertainty === null;
    const sizes = allErrors.map((name, i) => [name, isByFlows ? 0 : 1e-3 * ((i % 5) - 2.5)] as const);
    const none = inputs.directions[index]!.readings.map(() => 0);
    const native = nativeTest(inputs, index)({ of: Object.fromEntries(sizes), pressures: none, flows: none });
    const decimal = modelOf(inputs, index).outcome(
      Object.fromEntries(sizes.map(([name, size]) => [name, exact(size)])),
    );
    const because = "a double's sixteen digits less one for sums of logarithms";
    expectAgreement(native?.n ?? NaN, decimal.n.toNumber(), 1e-14, because);
    expectAgreement(native?.lnFlow50 ?? NaN, lnFlow(decimal, 50).toNumber(), 1e-14, because);
  });
});
