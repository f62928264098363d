import { describe, expect, test } from "vitest";
import { standards } from "../../../src/core";
import { validityChecks } from "../../../src/functions";
import { column } from "../errors";
import { type Table, rowOf, certificates, pressures, flows, checks } from "./checks";

describe("units", () => {
  const [foot, mile] = [0.3048, 1609.344];
  const perCfm = foot ** 3 * 60;
  /** A test in feet, cfm, mph and °F, and the same one in SI. */
  function inBoth(standard: string): readonly [ip: Table, si: Table] {
    const ip: Table = validityChecks(
      "depressurization",
      column(...pressures),
      column(...flows.map((flow) => flow / perCfm)),
      column(-1.2, -1.6, -1.4),
      column(-1, -1.4, -1.2),
      [
        ["units", "IP"],
        ["standard", standard],
        ["volume", 420 / foot ** 3],
        ["envelope area", 400 / foot ** 2],
        ["flow basis", "actual at the fan"],
        ["indoor temperature", 69.8],
        ["outdoor temperature", 41],
        ["building height", 10 / foot],
        ["wind speed", (2 * 3600) / mile],
        ["wind place", "near the ground"],
        ...certificates,
      ],
    );
    const si = checks({
      settings: [
        ["standard", standard],
        ["envelope area", 400],
        ["building height", 10],
        ["wind speed", 2],
        ["wind place", "near the ground"],
      ],
    });
    return [ip, si];
  }
  /** By hand, from the definitions of foot and mile: unit and factor of the rows that come in the user's units. */
  const scales: Record<string, readonly [unit: string, fromSi: (value: number) => number]> = {
    height_dT: ["ft·°F", (value) => (value * 1.8) / foot],
    wind: ["mph", (value) => (value * 3600) / mile],
    theta_e: ["°F", (value) => 1.8 * value + 32],
    ci_qE75: ["cfm/ft²", (value) => value / foot / 60],
  };

  test.each(standards)("%s: in IP the same outcomes, measured values and limits in the user's units", (standard) => {
    const [ip, si] = inBoth(standard);
    expect(ip.map((row) => row[5])).toEqual(si.map((row) => row[5]));
    for (const [index, row] of ip.entries()) {
      const [symbol, inSi] = [String(row[1]), si[index]!];
      const [unit, fromSi] = scales[symbol] ?? [inSi[4], (value: number) => value];
      expect([symbol, row[4]]).toEqual([symbol, unit]);
      // Two ways to round some ten operations: 1e-12 and a thousand times that.
      if (typeof row[2] === "number")
        expect(Math.abs(row[2] - fromSi(Number(inSi[2])))).toBeLessThanOrEqual(1e-9 * Math.abs(row[2]));
      if (scales[symbol] === undefined) expect(row[3]).toBe(inSi[3]);
    }
  });

  test.each([
    ["ISO 9972", "wind", "≤ 6.711", "≤ 3"],
    ["ISO 9972", "height_dT", "≤ 1476", "≤ 250"],
    ["ASTM E779", "height_dT", "≤ 1181", "≤ 200"],
    ["ASTM E779", "theta_e", "41 to 95", "5 to 35"],
    ["CGSB 149.10", "wind", "≤ 12.43", "≤ 5.556"],
    ["US Army Corps", "ci_qE75", "≤ 0.02", "≤ 0.3658"],
  ])("%s, %s: %s, in SI %s", (standard, symbol, inIp, inSi) => {
    const [ip, si] = inBoth(standard);
    expect([ip, si].map((table) => rowOf(table, symbol).limit)).toEqual([inIp, inSi]);
  });

  test("in litres a second the leakage per area has L/(s·m²)", () => {
    const settings: [string, unknown][] = [
      ["units", "SI L/s"],
      ["standard", "US Army Corps"],
      ["envelope area", 400],
    ];
    const litres = checks({ settings, flows: flows.map((flow) => flow / 3.6) });
    expect(rowOf(litres, "ci_qE75")).toMatchObject({ unit: "L/(s·m²)", limit: "≤ 0.1016" });
    expect(rowOf(litres, "height_dT").unit).toBe("m·K");
  });
});
