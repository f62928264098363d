import { describe, expect, test } from "vitest";
import { fanDemand, fittingOpening, type Opening } from "../../../src/core";
import { refuses } from "../refusals";

describe("what the fan must give", () => {
  const air = {
    temperature: { indoor: 20, outdoor: 20 },
    humidity: { indoor: 0, outdoor: 0 },
    barometricPressure: 101_325,
  };
  const device = { standard: "ISO 9972", calibrationDensity: 1.2041 } as const;
  const opening = (name: string, row: number, coefficient: number, lowest?: number): Opening => ({
    name,
    row,
    coefficient,
    exponent: 0.5,
    highest: 400,
    ...(lowest !== undefined && { lowest }),
  });
  const openings = [opening("wide", 1, 50, 25), opening("middle", 2, 16, 25), opening("narrow", 3, 2, 25)];
  refuses("invalid", [
    [
      "highest: aboveZero",
      () => fanDemand({ at50: 400, exponent: 0.65 }, 0, "depressurization", air, device),
      { got: 0 },
    ],
    [
      "target: aboveZero",
      () => fanDemand({ at50: 0, exponent: 0.65 }, 60, "depressurization", air, device),
      { got: 0 },
    ],
    [
      "openings, row 2: aboveZero",
      () => fittingOpening(300, [openings[0]!, { ...openings[1]!, highest: 0 }]),
      { got: 0 },
    ],
    ["openings, row 1: aboveZero", () => fittingOpening(300, [opening("odd", 1, -1)]), { got: -1 }],
  ]);
  refuses("missing", [["openings: notGiven", () => fittingOpening(300, [])]]);

  test("of the openings that reach the flow, the one with the highest fan pressure", () => {
    // q = c·√f: 300 m³/h is 36 Pa in the wide opening, 351.6 Pa in the middle one.
    expect(fittingOpening(300, openings)).toMatchObject({ opening: { name: "middle" } });
    expect(fittingOpening(300, [...openings].reverse())).toMatchObject({ opening: { name: "middle" } });
    const { fanPressure } = fittingOpening(300, openings) as { fanPressure: number };
    expect(fanPressure).toBeCloseTo((300 / 16) ** 2, 9);
    expect(fittingOpening(320, openings)).toMatchObject({ opening: { name: "middle" } });
    expect(fittingOpening(0.001, [opening("open end", 1, 50)])).toMatchObject({ opening: { name: "open end" } });
  });

  test("where none does, on which side the flow lies", () => {
    expect(fittingOpening(1001, openings)).toBe("above");
    expect(fittingOpening(9.9, openings)).toBe("below");
    expect(fittingOpening(60, openings)).toBe("between");
  });

  test("reference conditions on both sides: the fan gives q50·(p/50)^n, whichever way it blows", () => {
    for (const direction of ["depressurization", "pressurization"] as const) {
      const demand = fanDemand({ at50: 400, exponent: 0.6 }, 60, direction, air, {
        ...device,
        calibrationDensity: 1.204096,
      });
      const expected = 400 * 1.2 ** 0.6;
      for (const flow of Object.values(demand) as number[]) expect(Math.abs(flow / expected - 1)).toBeLessThan(1e-5);
    }
  });
});
