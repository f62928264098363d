import { describe, expect, test } from "vitest";
import { noErrors, placeOf, prepare, trial, type PreparedTest } from "../../../../src/core";
import { flow, n, down } from "./prepared";

describe("errors of single readings", () => {
  const { readings } = down;
  const changed = (change: (index: number) => Partial<(typeof readings)[number]>) =>
    prepare({ ...down, readings: readings.map((reading, index) => ({ ...reading, ...change(index) })) });
  const noise = [0.3, -0.2, 0.1, -0.4, 0.2, 0.05, -0.1];
  const same = (found: PreparedTest, errors: Float64Array, given: Parameters<typeof trial>[2]) => {
    for (const output of [flow, n]) {
      expect(trial(down, errors, given)!(output)).toBeCloseTo(trial(found, noErrors())!(output), 12);
    }
  };

  test("of the pressure in Pa, of ln q", () => {
    same(
      changed((index) => ({ pressure: readings[index]!.pressure + noise[index]! })),
      noErrors(),
      { pressure: noise },
    );
    same(
      changed((index) => ({ flow: readings[index]!.flow * Math.exp(noise[index]!) })),
      noErrors(),
      { logFlow: noise },
    );
  });

  test("an error of the device's exponent turns about the pivot, with the fan pressure as it truly was", () => {
    const errors = noErrors();
    errors[placeOf({ effect: "fanGain" })] = 0.2;
    for (const opening of [0, 1]) errors[placeOf({ effect: "openingExponent", opening })] = 0.03;
    const factor = 1.2 ** 0.5 * Math.exp(0.03 * (0.1 + Math.log(1.2)));
    same(
      changed((index) => ({ flow: readings[index]!.flow * factor })),
      errors,
      {},
    );
  });

  test("a baseline read once acts with its whole error, one read twice with half of each", () => {
    const errors = noErrors();
    errors[placeOf({ effect: "baselineBefore" })] = 0.8;
    errors[placeOf({ effect: "baselineAfter" })] = 0.4;
    same(
      changed((index) => ({ pressure: readings[index]!.pressure - 0.6 })),
      errors,
      {},
    );
    const open = Object.fromEntries(Object.entries(down).filter(([name]) => name !== "baselineAfter"));
    const once = prepare(open as unknown as PreparedTest);
    const moved = prepare({ ...once, readings: readings.map((one) => ({ ...one, pressure: one.pressure - 0.8 })) });
    expect(trial(once, errors)!(flow)).toBeCloseTo(trial(moved, noErrors())!(flow), 12);
  });

  test("the fan gauge's zero cannot be told where only the flow is known", () => {
    const unknown = changed((index) => {
      const { opening, exponent, logOverPivot } = readings[index]!.fan;
      return { fan: { opening, exponent, logOverPivot } };
    });
    const errors = noErrors();
    errors[placeOf({ effect: "fanZero" })] = 5;
    expect(trial(unknown, errors)!(flow)).toBe(trial(unknown, noErrors())!(flow));
    expect(trial(down, errors)!(flow)).not.toBe(trial(down, noErrors())!(flow));
  });
});
