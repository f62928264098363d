import { describe, expect, test } from "vitest";
import { expectAgreement } from "../../support/compare";
import { valueOf } from "../../support/sheet";
import type { Cell } from "../../support/sheet";
import { compute } from "../../support/sheet-test";
import { ROUNDING, estimates, expectSame, holds, numbersOf } from "./draws";

describe("order", () => {
  test("the order of the readings does not matter", () => {
    holds((one) => {
      const turned = { ...one, pressures: [...one.pressures].reverse(), flows: [...one.flows].reverse() };
      expectSame(compute(turned), compute(one));
    });
  });

  test("but a flow belongs to its pressure: flows in another order are another test", () => {
    holds((one) => {
      const [first, second, ...rest] = one.flows;
      if (first === undefined || second === undefined || first === second) return;
      const swapped = { ...one, flows: [second, first, ...rest] };
      expect(valueOf(compute(swapped), "s_n")).not.toBe(valueOf(compute(one), "s_n"));
    });
  });

  test("the order of the settings and blank rows among them do not matter", () => {
    holds((one) => {
      const entries = Object.entries(one.settings).reverse();
      expect(compute({ ...one, settings: Object.fromEntries(entries) })).toEqual(compute(one));
      for (const blank of [null, "", 0]) expect(compute(one, [[blank, blank]])).toEqual(compute(one));
    });
  });
});

describe("scale", () => {
  const flowSymbols = ["C", "C_L", "q50", "n50", "qE50", "qF50", "q_pr", "n_pr", "ELA4", "AL10", "EqLA10"];

  test("flows times k: C and everything that is a flow times k, n and its error as before", () => {
    holds((one) => {
      const k = 3.7;
      const larger = { ...one, flows: numbersOf(one.flows).map((flow) => flow * k) };
      expectSame(compute(larger), compute(one), estimates, (symbol) => (flowSymbols.includes(symbol) ? k : 1));
    });
  });

  test("volume times k: air changes over k, nothing else", () => {
    holds((one) => {
      const k = 2.5;
      const settings = { ...one.settings, volume: Number(one.settings["volume"]) * k };
      const changes = (symbol: string) => (["n50", "n_pr"].includes(symbol) ? 1 / k : 1);
      expectSame(compute({ ...one, settings }), compute(one), estimates, changes);
    });
  });

  test("pressures and baselines times k: n as before, C over k^n", () => {
    holds((one) => {
      const k = 1.75;
      const scaled = (cells: readonly Cell[]) => numbersOf(cells).map((value) => value * k);
      const stretched = {
        ...one,
        pressures: scaled(one.pressures),
        before: scaled(one.before),
        after: scaled(one.after),
      };
      const [actual, expected] = [compute(stretched), compute(one)];
      const n = valueOf(expected, "n");
      expectSame(actual, expected, ["n", "r2", "s_n"]);
      expectAgreement(valueOf(actual, "C") * k ** n, valueOf(expected, "C"), 1e-11, ROUNDING);
    });
  });
});
