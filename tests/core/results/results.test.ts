import { describe, expect, test } from "vitest";
import {
  airChangeRate,
  averagedResult,
  leakageArea,
  leakageAreaTerms,
  onePointFlow,
  specificLeakage,
  studentT,
  testResult,
  twoPointFlow,
  twoStations,
  type TestTerms,
} from "../../../src/core";
import { readings } from "../../authorities/support/leakage";
import { refuses, takes } from "../refusals";

const terms: TestTerms = {
  flowBasis: "through the envelope",
  calibrationDensity: 1.2041,
  pressureSign: "indoors minus outdoors",
  standard: "ISO 9972",
  technique: "ordinary",
  confidence: 0.95,
};
const air = {
  temperature: { indoor: 20, outdoor: 20 },
  humidity: { indoor: 0, outdoor: 0 },
  barometricPressure: 101_325,
};
const made = (flows: readonly number[], building = {}, change: Partial<TestTerms> = {}) =>
  testResult(
    {
      direction: "depressurization",
      readings: readings([-60, -45, -30, -15], flows),
      baselineBefore: [-1],
      baselineAfter: [-3],
    },
    air,
    { ...terms, ...change },
    building,
  );
const flows = [600, 500, 390, 250];

describe("rates and areas", () => {
  const hole = leakageAreaTerms["ISO 9972 10 Pa"];
  refuses("invalid", [
    ["flow: must be above 0 (got 0)", () => airChangeRate(0, 400)],
    ["volume: must be above 0 (got 0)", () => airChangeRate(240, 0)],
    ["flow: must be above 0 (got -240)", () => specificLeakage(-240, 400)],
    ["area: must be above 0 (got NaN)", () => specificLeakage(240, NaN)],
    ["coefficient: must be above 0 (got 0)", () => leakageArea(0, 0.65, hole)],
    ["exponent: above 0 and not more than 1.5, usually 0.5 to 1 (got 0)", () => leakageArea(10, 0, hole)],
    ["exponent: above 0 and not more than 1.5, usually 0.5 to 1 (got 1.6)", () => leakageArea(10, 1.6, hole)],
    ["pressure: must be above 0 (got 0)", () => leakageArea(10, 0.65, { ...hole, pressure: 0 })],
    [
      "discharge_coefficient: above 0 and not more than 1 (got 0)",
      () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 0 }),
    ],
    [
      "discharge_coefficient: above 0 and not more than 1 (got 1.01)",
      () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 1.01 }),
    ],
  ]);
  takes([
    ["exponent 1.5", () => leakageArea(10, 1.5, hole)],
    ["discharge coefficient 1", () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 1 })],
  ]);
});

describe("mean of both directions", () => {
  const alone = 'no result yet; one direction alone counts only with one_direction "accept"';
  refuses("missing", [
    [`pressurization: ${alone}`, () => averagedResult({ depressurization: [1], pressurization: [] })],
    [`depressurization: ${alone}`, () => averagedResult({ depressurization: [], pressurization: [1] })],
    [`depressurization: ${alone}`, () => averagedResult({ depressurization: [], pressurization: [] }, "accept")],
  ]);
  refuses("invalid", [
    [
      "pressurization: must be above 0 (got -1)",
      () => averagedResult({ depressurization: [1], pressurization: [2, -1] }),
    ],
    [
      "depressurization: the results are too large",
      () => averagedResult({ depressurization: [1e308, 1e308], pressurization: [1e308] }),
    ],
  ]);

  test("runs of one direction are averaged first", () => {
    expect(averagedResult({ depressurization: [1, 2, 3], pressurization: [4] })).toBe(3);
    expect(averagedResult({ depressurization: [], pressurization: [4, 6] }, "accept")).toBe(5);
  });
});

describe("one point", () => {
  refuses("invalid", [
    ["flow: must be above 0 (got 0)", () => onePointFlow(0, 50)],
    ["at: must be above 0 (got 0)", () => onePointFlow(500, 50, { at: 0 })],
    ["exponent: from 0.5 to 1, with some margin (got 0.3)", () => onePointFlow(500, 50, { exponent: 0.3 })],
    ["exponent: its standard uncertainty is from 0 to 1", () => onePointFlow(500, 50, { exponentUncertainty: -0.01 })],
    ["exponent: its standard uncertainty is from 0 to 1", () => onePointFlow(500, 50, { exponentUncertainty: 1.01 })],
    ["pressure: must not be 0", () => onePointFlow(500, 0)],
    ["pressure: -3 Pa does not exceed the baseline of -3 Pa", () => onePointFlow(500, -3, { baseline: -3 })],
    ["pressure: 2 Pa does not exceed the baseline of 3 Pa", () => onePointFlow(500, 2, { baseline: 3 })],
  ]);
  takes([
    ["no uncertainty of the exponent", () => onePointFlow(500, 40, { exponentUncertainty: 0 })],
    ["an uncertainty of 1", () => onePointFlow(500, 40, { exponentUncertainty: 1 })],
  ]);
});

describe("two points", () => {
  const [high, low] = [readings([50, 51], [400, 404]), readings([12.5, 12], [160, 156])];
  const clear = "two clearly different pressures are needed, such as 50 and 12.5 Pa";
  refuses("missing", [
    ["pressures: readings at two pressures needed, 1 so far", () => twoStations(readings([50], [400]))],
    ["pressures: readings at two pressures are needed", () => twoPointFlow([], low)],
    ["pressures: readings at two pressures are needed", () => twoPointFlow(high, [])],
  ]);
  refuses("invalid", [
    ["at: must be above 0 (got -50)", () => twoPointFlow(high, low, -50)],
    ["pressures, row 1: must be above 0 (got 0)", () => twoPointFlow(high, readings([0], [160]))],
    ["flows, row 2: must be above 0 (got -1)", () => twoPointFlow(readings([50, 51], [400, -1]), low)],
    [
      "flows: the flow does not rise with the pressure",
      () => twoPointFlow(readings([50], [160]), readings([12.5], [160])),
    ],
    [
      `pressures: ${clear} (nearest are 50 and 34 Pa)`,
      () => twoPointFlow(readings([51, 50], [400, 399]), readings([34, 33], [300, 299])),
    ],
    // The gap within a group is as wide as the gap between the groups.
    [
      `pressures: ${clear} (nearest are 40 and 20 Pa)`,
      () => twoPointFlow(readings([80, 40], [400, 250]), readings([20], [160])),
    ],
    [
      `pressures: ${clear} (nearest are 40 and 20 Pa)`,
      () => twoPointFlow(readings([40], [250]), readings([20, 10], [160, 100])),
    ],
  ]);
  takes([["pressures in the ratio of 1.5", () => twoPointFlow(readings([60], [400]), readings([40], [300]))]]);

  test("stations are split where the ratio of neighbours is largest, in whatever order they were read", () => {
    const [upper, lower] = twoStations(readings([12, 50, 13, 48, 12.5, 49], [1, 2, 3, 4, 5, 6]));
    expect(upper.map(({ pressure }) => pressure)).toEqual([50, 49, 48]);
    expect(lower.map(({ pressure }) => pressure)).toEqual([13, 12.5, 12]);
    expect(twoStations(readings([50, 50], [1, 2])).map(({ length }) => length)).toEqual([1, 1]);
  });

  test("of two steps alike the one at the higher pressure splits", () => {
    expect(
      twoStations(readings([20, 80, 40], [1, 2, 3])).map((station) => station.map(({ pressure }) => pressure)),
    ).toEqual([[80], [40, 20]]);
  });

  test("by hand at 25 Pa: weights of both stations' logarithms, limits, degrees of freedom (JCGM 100:2008 5.1.2 and G.4.1)", () => {
    const [at50, at12] = [readings([50, 50, 50], [400, 408, 396]), readings([12.5, 12.5], [160, 162])];
    const result = twoPointFlow(at50, at12, 25);
    const [q1, q2, span] = [1204 / 3, 161, Math.log(4)];
    const n = Math.log(q1 / q2) / span;
    const flow = q1 * 0.5 ** n;
    // Half-way between the stations on the logarithms, both weigh the same.
    const ofStation = (flows: readonly number[]) => {
      const logs = flows.map(Math.log);
      const mean = logs.reduce((a, b) => a + b) / logs.length;
      return logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (logs.length - 1) / logs.length;
    };
    const [v1, v2] = [ofStation([400, 408, 396]), ofStation([160, 162])];
    const relative = Math.sqrt(0.25 * v1 + 0.25 * v2);
    expect(result.coefficient * 50 ** n).toBeCloseTo(q1, 9);
    expect(result.standardUncertainty).toBeCloseTo(flow * relative, 9);
    expect(result.exponentUncertainty).toBeCloseTo(Math.sqrt(v1 + v2) / span, 12);
    const effective = (v1 + v2) ** 2 / (v1 ** 2 / 2 + v2 ** 2 / 1);
    expect(result.degreesOfFreedom).toBe(Math.floor(effective));
    const t = studentT(0.95, Math.floor(effective));
    const limits = result.flow as { value: number; lower: number; upper: number };
    expect(limits.value).toBeCloseTo(flow, 9);
    expect(Math.log(limits.upper / flow)).toBeCloseTo(t * relative, 10);
    const ofExponent = result.exponent as { value: number; lower: number; upper: number };
    expect(ofExponent.upper - n).toBeCloseTo((t * Math.sqrt(v1 + v2)) / span, 10);
    expect(n - ofExponent.lower).toBeCloseTo((t * Math.sqrt(v1 + v2)) / span, 10);
    // At a quarter of the way the nearer station weighs three quarters.
    const quarter = twoPointFlow(at50, at12, 50 / 4 ** 0.25);
    expect(quarter.standardUncertainty! / (quarter.flow as { value: number }).value).toBeCloseTo(
      Math.sqrt(0.5625 * v1 + 0.0625 * v2),
      12,
    );
  });

  test("one reading at a pressure has no scatter, so there are no limits", () => {
    for (const result of [twoPointFlow(high, low.slice(1)), twoPointFlow(high.slice(1), low)]) {
      expect(typeof result.flow).toBe("number");
      expect(typeof result.exponent).toBe("number");
      expect(result).not.toHaveProperty("standardUncertainty");
    }
  });

  test("repeats that agree fully leave no degrees of freedom to state", () => {
    const result = twoPointFlow(readings([50, 50], [400, 400]), readings([12.5, 12.5], [160, 160]));
    expect(result.standardUncertainty).toBe(0);
    expect(result).not.toHaveProperty("degreesOfFreedom");
    expect(twoPointFlow(high, low).degreesOfFreedom).toBeGreaterThan(0);
  });
});

describe("a whole test", () => {
  refuses("invalid", [
    ["flows, row 2: must be above 0 (got 0)", () => made([600, 0, 390, 250])],
    ["volume: must be above 0 (got 0)", () => made(flows, { volume: 0 })],
    ["envelope area: must be above 0 (got -1)", () => made(flows, { envelopeArea: -1 })],
    ["floor area: must be above 0 (got 0)", () => made(flows, { floorArea: 0 })],
    [
      "pressures, row 1: a pressurization reading is above 0 as indoors minus outdoors (got -60 Pa); set the pressure sign if your " +
        "readings are signed otherwise or are magnitudes",
      () =>
        testResult(
          { direction: "pressurization", readings: readings([-60, -30], [600, 390]), baselineBefore: [0] },
          air,
          terms,
          {},
        ),
    ],
  ]);

  test("the baseline is shown as indoors minus outdoors, whatever sign the readings have", () => {
    expect(made(flows).baseline).toEqual({ before: -1, after: -3, pressure: -2 });
    const before = { direction: "depressurization", readings: readings([-60, -45, -15], [600, 500, 250]) } as const;
    expect(testResult({ ...before, baselineBefore: [-1] }, air, terms, {}).baseline).toEqual({
      before: -1,
      pressure: -1,
    });
    const turned = testResult(
      {
        direction: "depressurization",
        readings: readings([60, 45, 30, 15], flows),
        baselineBefore: [1],
        baselineAfter: [3],
      },
      air,
      { ...terms, pressureSign: "outdoors minus indoors" },
      {},
    );
    expect(turned.baseline).toEqual({ before: -1, after: -3, pressure: -2 });
    expect(turned.points).toEqual(made(flows).points);
  });

  test("flows and their uncertainties are turned by the same factor", () => {
    const cold = { ...air, temperature: { indoor: 20, outdoor: -10 } };
    const uncertain = readings([-60, -45, -30, -15], flows).map((reading) => ({ ...reading, flowUncertainty: 5 }));
    const result = testResult(
      { direction: "depressurization", readings: uncertain, baselineBefore: [0] },
      cold,
      { ...terms, flowBasis: "actual at the fan" },
      {},
    );
    // ρ_i/ρ_e of dry air is the ratio of the kelvins.
    expect(result.flowFactor).toBeCloseTo(263.15 / 293.15, 12);
    expect(result.points[0]).toMatchObject({
      pressure: 60,
      flow: 600 * result.flowFactor,
      flowUncertainty: 5 * result.flowFactor,
    });
    expect(made(flows).points[0]).not.toHaveProperty("flowUncertainty");
  });

  test("what has no size given is absent", () => {
    const { at50 } = made(flows);
    expect(Object.keys(at50)).toEqual(["pressure", "flow"]);
    const sized = made(flows, { volume: 400, envelopeArea: 360, floorArea: 160 }).at(30);
    expect(sized.pressure).toBe(30);
    expect(sized.airChangeRate!.value).toBeCloseTo(sized.flow.value / 400, 12);
    expect(sized.perEnvelopeArea!.upper).toBeCloseTo(sized.flow.upper / 360, 12);
    expect(sized.perFloorArea!.lower).toBeCloseTo(sized.flow.lower / 160, 12);
  });
});
