import { describe, expect, test } from "vitest";
import { testResult } from "../../../src/functions";
import { column } from "../errors";
import { type Table, rowOf, outcome, symbolsWith, complete, pressures, flows, checks } from "./checks";

describe("intervals at 95 % that a standard limits", () => {
  const q = (symbol: string, table: Table) => Number(table.find((row) => row[1] === symbol)?.[2]);
  const army: [string, unknown][] = [
    ["standard", "US Army Corps"],
    ["envelope area", 400],
  ];

  test("are those of TESTRESULT at 95 %, whatever confidence was chosen for the results", () => {
    const settings = [...complete, ...army, ["reference pressure", 75]];
    const result: Table = testResult(
      "depressurization",
      column(...pressures),
      column(...flows),
      column(-1.2, -1.6, -1.4),
      column(-1, -1.4, -1.2),
      settings,
    );
    const [q50, qE75] = ["q50", "qE_pr"].map((symbol) => result.find((row) => row[1] === symbol)!.slice(2, 5));
    const half = ([value, , upper]: unknown[]) => Number(upper) - Number(value);
    for (const confidence of [0.95, 0.8]) {
      const table = checks({ settings: [...army, ["confidence", confidence]] });
      expect(q("ci_q50", table)).toBeCloseTo((100 * half(q50!)) / Number(q50![0]), 10);
      expect(q("ci_qE75", table)).toBeCloseTo(half(qE75!), 10);
    }
  });

  test("± 0.02 cfm/ft² at 75 Pa by the army's protocol, in the user's unit; without the area it cannot be judged", () => {
    const ofArmy = (settings: [string, unknown][]) => rowOf(checks({ settings }), "ci_qE75");
    expect(ofArmy(army)).toMatchObject({ limit: "≤ 0.3658", unit: "m³/(h·m²)", outcome: "met", weight: "binding" });
    expect(ofArmy([["standard", "US Army Corps"]])).toMatchObject({ measured: "", outcome: "cannot be judged" });
    expect(ofArmy([["standard", "US Army Corps"]]).advice).toContain('"envelope area"');
    const scattered = checks({ flows: [574, 507, 470, 364, 281], settings: [army[0]!, ["envelope area", 100]] });
    expect(rowOf(scattered, "ci_qE75").outcome).toBe("not met");
    expect(symbolsWith(scattered, "not met")).toContain("ci_qE75");
  });

  test("10 % of the flow at 50 Pa parts the standard test of RESNET/ICC 380 from that of reduced accuracy", () => {
    const settings: [string, unknown][] = [["standard", "RESNET/ICC 380 multi-point"]];
    expect(rowOf(checks({ settings }), "ci_q50")).toMatchObject({ limit: "≤ 10", outcome: "met", weight: "advisory" });
    const wide = rowOf(checks({ settings, flows: [574, 440, 480, 330, 281] }), "ci_q50");
    expect(wide).toMatchObject({ outcome: "not met" });
    expect(wide.advice).toContain("reduced accuracy");
  });
});

describe("one-point tests", () => {
  const onePoint = (standard: string, pressure: number) =>
    checks({ pressures: [pressure - 1.3], flows: [500], settings: [["standard", standard]] });

  test.each([
    ["RESNET/ICC 380", -50, "met", "met"],
    ["RESNET/ICC 380", -47.5, "met", "met"],
    ["RESNET/ICC 380", -30, "met", "not met"],
    ["RESNET/ICC 380", -14, "not met", "not met"],
    ["CGSB 149.10-2019 one-point", -47.5, "", "met"],
    ["CGSB 149.10-2019 one-point", -46.5, "", "not met"],
    ["CGSB 149.10-2019 one-point", -53.5, "", "not met"],
  ])("%s at %d Pa: lowest pressure %s, highest %s", (standard, pressure, lowest, highest) => {
    const table = onePoint(standard, pressure);
    expect([outcome(table, "dp_min"), outcome(table, "dp_max")]).toEqual([lowest, highest]);
    expect(symbolsWith(table, "cannot be judged")).toEqual([]);
  });
});
