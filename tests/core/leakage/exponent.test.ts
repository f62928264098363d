import { describe, expect, test } from "vitest";
import {
  allowedFlow,
  areaFlow,
  fitLeakage,
  givenExponents,
  leakageFlow,
  referenceCoefficient,
} from "../../../src/core";
import { readings } from "../../authorities/support/leakage";

const hole = { dischargeCoefficient: 1, pressure: 4 };
const taken = (compute: (exponent: number) => unknown, exponent: number) => {
  try {
    compute(exponent);
    return true;
  } catch (error) {
    expect(error).toMatchObject({ kind: "invalid", term: "exponent", data: { got: exponent } });
    return false;
  }
};

describe("an exponent given by hand: 0.4 to 1.1, wherever it is typed", () => {
  test.each([
    [
      "a limit at another pressure",
      (n: number) => allowedFlow(0.6, { quantity: "air change rate" }, { volume: 500 }, n),
    ],
    ["the flow of a leakage area", (n: number) => areaFlow(0.01, hole, n, 50)],
  ])("%s", (_, compute) => {
    const { lowest, highest } = givenExponents;
    expect([lowest, highest]).toEqual([0.4, 1.1]);
    expect([lowest, highest].map((n) => taken(compute, n))).toEqual([true, true]);
    expect([lowest - 1e-9, highest + 1e-9, NaN].map((n) => taken(compute, n))).toEqual([false, false, false]);
  });
});

describe("an exponent from readings: up to 1.5, so that a failed fit is still seen", () => {
  test.each([
    ["the flow of the curve", (n: number) => leakageFlow(10, n, 50)],
    ["C at reference conditions", (n: number) => referenceCoefficient(10, n, { factor: 1, pressureFactor: 1 })],
  ])("%s", (_, compute) => {
    expect([1e-9, 0.3, 1.2, 1.5].map((n) => taken(compute, n))).toEqual([true, true, true, true]);
    expect([0, 1.5 + 1e-9, NaN].map((n) => taken(compute, n))).toEqual([false, false, false]);
  });

  test("of a window that opened during the test", () => {
    const { exponent, coefficient } = fitLeakage(readings([20, 30, 40, 50], [100, 170, 250, 330]), "ordinary");
    expect(exponent).toBeGreaterThan(givenExponents.highest);
    expect(leakageFlow(coefficient, exponent, 50)).toBeGreaterThan(300);
  });
});
