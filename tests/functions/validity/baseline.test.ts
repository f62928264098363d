import { describe, expect, test } from "vitest";
import trap from "../../authorities/trade-practice/unsigned_readings.json";
import { refusal } from "../errors";
import { rowOf, outcome, symbolsWith, pressures, checks } from "./checks";

describe("the baseline", () => {
  test("positive and negative readings are averaged apart", () => {
    const table = checks({ before: [-6, 6, -4, 6.2], after: [5.5, 4.5, 0] });
    expect(rowOf(table, "dp01+")).toMatchObject({ measured: 6.1, outcome: "not met" });
    expect(rowOf(table, "dp01-")).toMatchObject({ measured: -5, outcome: "met" });
    expect(rowOf(table, "dp02+")).toMatchObject({ measured: 5, outcome: "met" });
    expect(rowOf(table, "dp02-")).toMatchObject({ measured: 0, outcome: "met" });
    expect(rowOf(table, "dp01+").advice).toMatch(/^repeat in calmer weather/);
  });

  test("one averaged value hides them: it can break a limit, not keep it", () => {
    const averaged = checks({ before: [-1.4], after: [-1.2] });
    for (const symbol of ["dp01+", "dp01-", "dp02+", "dp02-", "dp0_of_min"]) {
      expect([symbol, outcome(averaged, symbol)]).toEqual([symbol, "cannot be judged"]);
    }
    expect(outcome(checks({ before: [-6], after: [-1.2, -1] }), "dp01-")).toBe("not met");
    expect(outcome(checks({ before: [-4.9], after: [-4.9] }), "dp0_of_min")).toBe("not met");
  });

  test("is signed indoors minus outdoors, however the gauge was connected", () => {
    const turned = checks({
      pressures: pressures.map((pressure) => -pressure),
      before: [1.2, 1.6, 1.4],
      after: [1, 1.4, 1.2],
      settings: [["pressure sign", "outdoors minus indoors"]],
    });
    expect(turned).toEqual(checks());
  });
});

describe("depressurization readings typed without their sign (a constructed case: true n50 0.640, read as a passing 0.596)", () => {
  const { signed_readings_Pa: signed, flows_m3_per_h: trapped, baseline_Pa: baseline } = trap;
  const unsigned = signed.map(Math.abs);
  const run = (readings: readonly number[], ...settings: [string, unknown][]) =>
    checks({
      pressures: readings,
      flows: trapped,
      before: [baseline, baseline],
      after: [baseline, baseline],
      settings,
    });

  test("are refused by row, since no statistic would notice", () => {
    expect(refusal(() => run(unsigned))).toMatchObject({
      code: "#VALUE!",
      message: expect.stringMatching(/^pressures, row 1: a depressurization reading is below 0/) as string,
    });
  });

  test("declared as magnitudes they are judged like the signed ones", () => {
    expect(run(unsigned, ["pressure sign", "magnitude"])).toEqual(run(signed));
    expect(symbolsWith(run(signed), "not met")).toEqual(["dp0_of_min"]);
  });
});
