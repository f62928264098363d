import { describe, expect, test } from "vitest";
import { valueOf } from "../../support/sheet";
import type { Cell } from "../../support/sheet";
import { compute } from "../../support/sheet-test";
import { expectSame, holds, numbersOf } from "./draws";

describe("sign and baseline", () => {
  const negated = (cells: readonly Cell[]) => numbersOf(cells).map((value) => -value);

  test("a gauge connected the other way round gives the same results and the same signed baseline", () => {
    holds((one) => {
      const turned = {
        ...one,
        pressures: negated(one.pressures),
        before: negated(one.before),
        after: negated(one.after),
        settings: { ...one.settings, "pressure sign": "outdoors minus indoors" },
      };
      const [actual, expected] = [compute(turned), compute(one)];
      expectSame(actual, expected);
      expect(Math.abs(valueOf(actual, "dp0") - valueOf(expected, "dp0"))).toBeLessThan(1e-14);
    });
  });

  test("readings noted as magnitudes, baseline signed, give the same results", () => {
    holds((one) => {
      const settings = { ...one.settings, "pressure sign": "magnitude" };
      const unsigned = { ...one, pressures: numbersOf(one.pressures).map(Math.abs), settings };
      expectSame(compute(unsigned), compute(one));
    });
  });

  test("readings with the sign of the other direction are an error, never a result", () => {
    holds((one) => {
      const turned = { ...one, pressures: negated(one.pressures) };
      expect(() => compute(turned)).toThrow(expect.objectContaining({ code: "#VALUE!" }));
    });
  });

  test("a constant offset of the gauge cancels in the baseline", () => {
    holds((one) => {
      const sign = one.direction === "depressurization" ? -1 : 1;
      const shifted = (cells: readonly Cell[]) => numbersOf(cells).map((value) => value + sign * 2.25);
      const drifting = {
        ...one,
        pressures: shifted(one.pressures),
        before: shifted(one.before),
        after: shifted(one.after),
      };
      expectSame(compute(drifting), compute(one));
    });
  });

  test("a zero shift of the readings alone does not cancel", () => {
    holds((one) => {
      const sign = one.direction === "depressurization" ? -1 : 1;
      const pressures = numbersOf(one.pressures).map((value) => value + sign);
      const [shifted, straight] = [compute({ ...one, pressures }), compute(one)];
      expect(valueOf(shifted, "n")).toBeGreaterThan(valueOf(straight, "n"));
    });
  });

  test("the baseline is the mean of the two sets' means, not of all readings", () => {
    holds((one) => {
      const doubled = { ...one, before: [...one.before, ...one.before] };
      expectSame(compute(doubled), compute(one));
    });
  });
});
