import { describe, expect, test } from "vitest";
import { testResult, type TestTerms } from "../../../src/core";
import { readings } from "../../authorities/support/leakage";
import { refuses } from "../refusals";

const flows = [600, 500, 390, 250];
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

describe("a whole test", () => {
  refuses("invalid", [
    ["flows, row 2: aboveZero", () => made([600, 0, 390, 250]), { got: 0 }],
    ["volume: aboveZero", () => made(flows, { volume: 0 }), { got: 0 }],
    ["envelope area: aboveZero", () => made(flows, { envelopeArea: -1 }), { got: -1 }],
    ["floor area: aboveZero", () => made(flows, { floorArea: 0 }), { got: 0 }],
    [
      "pressures, row 1: otherDirection",
      () =>
        testResult(
          { direction: "pressurization", readings: readings([-60, -30], [600, 390]), baselineBefore: [0] },
          air,
          terms,
          {},
        ),
      { pressure: -60, direction: "pressurization" },
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
    const known = Object.entries(at50).filter(([, value]) => value !== undefined);
    expect(known.map(([name]) => name)).toEqual(["pressure", "flow"]);
    const sized = made(flows, { volume: 400, envelopeArea: 360, floorArea: 160 }).at(30);
    expect(sized.pressure).toBe(30);
    expect(sized.airChangeRate!.value).toBeCloseTo(sized.flow.value / 400, 12);
    expect(sized.perEnvelopeArea!.upper).toBeCloseTo(sized.flow.upper / 360, 12);
    expect(sized.perFloorArea!.lower).toBeCloseTo(sized.flow.lower / 160, 12);
  });
});
