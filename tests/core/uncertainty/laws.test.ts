import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  agreement,
  baselineMovement,
  baselineSet,
  budgetRows,
  combine,
  limitsOf,
  noErrors,
  normal,
  ofOpening,
  placeOf,
  prepare,
  readingResponse,
  rectangular,
  rowsOfMean,
  sensitivity,
  simulate,
  stackHalfWidth,
  trial,
  windHalfWidth,
  type Direction,
  type Effect,
  type ModelReading,
  type Output,
  type PreparedTest,
  type Source,
  type Technique,
} from "../../../src/core";

const outputs: Output[] = [
  { of: "flow", pressure: 50, perSize: true },
  { of: "flow", pressure: 4 },
  { of: "coefficient" },
  { of: "exponent" },
];

/** Made-up readings of one house, with a scatter that follows no law. */
function made(
  direction: Direction,
  change: { technique?: Technique; standard?: "ASTM E779"; offset?: number } = {},
): PreparedTest {
  const { technique = "ordinary", standard = "ISO 9972", offset = 0 } = change;
  const side = direction === "pressurization" ? 1 : -1;
  const baseline = -1.2 + offset;
  const induced = [61, 52, 44, 33, 27, 19, 12];
  const scatter = [0.004, -0.011, 0.006, 0.009, -0.003, -0.014, 0.008];
  const readings = induced.map((pressure, index): ModelReading => {
    const opening = index < 4 ? 0 : 1;
    const fanPressure = 20 + 3 * pressure;
    return {
      row: index + 1,
      pressure: side * pressure + baseline,
      flow: 31 * pressure ** 0.63 * Math.exp(scatter[index]!),
      fan: {
        opening,
        exponent: 0.49 + 0.02 * opening,
        pressure: fanPressure,
        logOverPivot: Math.log(fanPressure / 90),
      },
      time: (index + 0.5) / induced.length,
      pressureUncertainty: 0.4 + 0.1 * index,
      flowUncertainty: 2 + index,
    };
  });
  return prepare({
    direction,
    readings,
    baselineBefore: baseline - 0.4,
    baselineAfter: baseline + 0.4,
    air: {
      temperature: { indoor: 22, outdoor: -6 },
      humidity: { indoor: 0.4, outdoor: 0.7 },
      barometricPressure: 97000,
    },
    standard,
    technique,
    allowance: { above: 0.06, below: 0.1 },
  });
}

const sensitivityTo = (effect: Effect, prepared: PreparedTest, output: Output, opening?: number) => {
  const source = normal("x", effect, 1);
  return sensitivity(
    opening === undefined ? source : ofOpening(source, opening),
    prepared,
    output,
    readingResponse(prepared, output),
  );
};

const directions: Direction[] = ["depressurization", "pressurization"];

describe.each(directions)("laws of the sensitivities, %s", (direction) => {
  const prepared = made(direction);
  const { exponent } = prepared.fit;

  test.each(outputs)("all flows wrong alike: $of", (output) => {
    const sum = readingResponse(prepared, output).toFlow.reduce((total, value) => total + value, 0);
    const expected = output.of === "exponent" ? 0 : 1;
    expect(Math.abs(sum - expected)).toBeLessThan(1e-13);
    expect(Math.abs(sensitivityTo("flowGain", prepared, output) - expected)).toBeLessThan(1e-13);
    const openings = [0, 1].map((opening) => sensitivityTo("openingGain", prepared, output, opening));
    expect(Math.abs(openings[0]! + openings[1]! - expected)).toBeLessThan(1e-13);
  });

  test.each(outputs)("the gauge's gain gives −n, exactly and at any size: $of", (output) => {
    const expected = output.of === "exponent" ? 0 : -exponent;
    expect(Math.abs(sensitivityTo("gaugeGain", prepared, output) - expected)).toBeLessThan(1e-13);
    const errors = noErrors();
    errors[placeOf({ effect: "gaugeGain" })] = 0.3;
    const change = trial(prepared, errors)!(output) - trial(prepared, noErrors())!(output);
    expect(Math.abs(change - expected * Math.log(1.3))).toBeLessThan(1e-12);
  });

  test.each(outputs)("one calibration for both gauges adds their sensitivities: $of", (output) => {
    const both = sensitivityTo("gaugeGain", prepared, output) + sensitivityTo("fanGain", prepared, output);
    expect(Math.abs(sensitivityTo("bothGaugeGains", prepared, output) - both)).toBeLessThan(1e-13);
  });

  test.each(outputs)("an offset of readings and baselines alike cancels: $of", (output) => {
    const shifted = made(direction, { offset: 7.5 });
    expect(Math.abs(trial(shifted, noErrors())!(output) - trial(prepared, noErrors())!(output))).toBeLessThan(1e-12);
    const cancelled = sensitivityTo("offset", prepared, output) + sensitivityTo("baseline", prepared, output);
    expect(Math.abs(cancelled)).toBeLessThan(1e-15);
  });
});

test.each(outputs)("a zero shift acts with opposite sign in the two directions: $of", (output) => {
  const [one, other] = directions.map((direction) => {
    const prepared = made(direction);
    return { shift: sensitivityTo("offset", prepared, output), response: readingResponse(prepared, output), prepared };
  });
  expect(Math.sign(one!.shift)).toBe(-Math.sign(other!.shift));
  if (output.of !== "flow") expect(Math.abs(one!.shift + other!.shift)).toBeLessThan(1e-13);
});

const everywhere: [Effect, step: number][] = [
  ["gaugeGain", 1e-4],
  ["bothGaugeGains", 1e-4],
  ["offset", 1e-3],
  ["baseline", 1e-3],
  ["baselineBefore", 1e-3],
  ["baselineAfter", 1e-3],
  ["drift", 1e-3],
  ["fanGain", 1e-4],
  ["fanZero", 1e-3],
  ["flowGain", 1e-4],
  ["indoorTemperature", 1e-2],
  ["outdoorTemperature", 1e-2],
  ["barometer", 10],
  ["indoorHumidity", 1e-3],
  ["outdoorHumidity", 1e-3],
  ["size", 1e-4],
  ["extrapolation", 1e-2],
  ["openingGain", 1e-4],
  ["openingExponent", 1e-4],
];

/** With held weights the fitted line is not the one that a fit with moved weights gives, so only these techniques compare without a remainder. */
const techniques: Technique[] = ["ordinary", "organic correlation"];

describe.each(techniques.flatMap((technique) => directions.map((direction) => ({ technique, direction }))))(
  "central differences of the whole model, $technique, $direction",
  ({ technique, direction }) => {
    const tests = [made(direction, { technique }), made(direction, { technique, standard: "ASTM E779" })];
    test.each(everywhere)("%s", (effect, step) => {
      for (const prepared of tests) {
        for (const output of outputs) {
          const opening = effect.startsWith("opening") ? 1 : undefined;
          const at = placeOf({ effect, ...(opening !== undefined && { opening }) });
          const [up, down] = [step, -step].map((amount) => {
            const errors = noErrors();
            errors[at] = amount;
            return trial(prepared, errors)!(output);
          });
          const difference = (up! - down!) / (2 * step);
          const analytic = sensitivityTo(effect, prepared, output, opening);
          expect(
            Math.abs(difference - analytic),
            `${JSON.stringify(output)}: ${difference} against ${analytic}`,
          ).toBeLessThan(2e-6 * Math.abs(analytic) + 1e-9);
        }
      }
    });
  },
);

describe("combination", () => {
  const row = (uncertainty: number, sensitivity: number, degreesOfFreedom = Infinity) => ({
    symbol: "x",
    uncertainty,
    sensitivity,
    degreesOfFreedom,
  });

  test("the worked example of JCGM 100:2008, H.1.6: u = 32 nm, 16 effective degrees of freedom, U = 93 nm at 99 %", () => {
    const rows = [row(25, 1, 18), row(9.7, 1, 25.6), row(2.9, 1, 50), row(16.6, 1, 2), row(0, 0)];
    const { standardUncertainty, degreesOfFreedom, expanded } = combine(rows, 0.99);
    expect(Math.round(standardUncertainty)).toBe(32);
    expect(degreesOfFreedom).toBe(16);
    expect(Math.round(expanded)).toBe(93);
  });

  test("a contained row does not count; infinite degrees of freedom give the normal quantile", () => {
    const { standardUncertainty, shares, effectiveDegreesOfFreedom, t } = combine(
      [row(3, 1), row(4, -1), { ...row(100, 1), contained: true }],
      0.95,
    );
    expect(standardUncertainty).toBe(5);
    expect(shares.map((share) => Math.round(share * 1e12) / 1e12)).toEqual([0.36, 0.64, 0]);
    expect(effectiveDegreesOfFreedom).toBe(Infinity);
    expect(Math.abs(t - 1.959963984540054)).toBeLessThan(1e-9);
  });

  test("degrees of freedom are truncated, but a whole number is not lost to rounding", () => {
    expect(combine([row(1, 1, 7)], 0.95).degreesOfFreedom).toBe(7);
    expect(combine([row(1, 1, 7.9)], 0.95).degreesOfFreedom).toBe(7);
    expect(combine([row(1, 1, 0.4)], 0.95).degreesOfFreedom).toBe(1);
  });

  test("nothing uncertain is no uncertainty, and limits are the value", () => {
    const nothing = combine([row(0, 1)], 0.95);
    expect(nothing.standardUncertainty).toBe(0);
    expect(nothing.shares).toEqual([0]);
    expect(limitsOf(3, nothing, false)).toEqual({ value: 3, lower: 3, upper: 3 });
  });

  test("limits are multiplied for flows and added for n", () => {
    const one = combine([row(0.1, 1)], 0.95);
    expect(limitsOf(2, one, false).upper).toBe(2 * Math.exp(one.expanded));
    expect(limitsOf(2, one, true).upper).toBe(2 + one.expanded);
  });

  test("a row of both directions is added with its sign before squaring; a row of one is only weighted", () => {
    const of = (symbol: string, sensitivity: number, uncertainty = 1) => ({ ...row(uncertainty, sensitivity), symbol });
    const mean = rowsOfMean([of("zero", 2), of("a", 1)], [of("zero", -2), of("b", 3)], [0.5, 0.5]);
    expect(mean.map(({ symbol, sensitivity }) => [symbol, sensitivity])).toEqual([
      ["zero", 0],
      ["a", 0.5],
      ["b", 1.5],
    ]);
    const unlike = rowsOfMean([of("x", 1, 0.02)], [of("x", 1, 0.04)], [0.5, 0.5])[0]!;
    expect(unlike.uncertainty * unlike.sensitivity).toBeCloseTo(0.03, 15);
  });
});

test("baselines: standard error, what the gauge resolves, one value only", () => {
  const { uncertainty, degreesOfFreedom } = baselineSet([1, 2, 3, 4], 0.1, 0.2);
  expect(Math.abs(uncertainty - Math.sqrt(5 / 3 / 4))).toBeLessThan(1e-15);
  expect(degreesOfFreedom).toBe(3);
  expect(baselineSet([1, 1, 1], 0.1, 0.2)).toEqual({ uncertainty: 0.1 / Math.sqrt(12), degreesOfFreedom: Infinity });
  expect(baselineSet([1], 0.1, 0.2)).toEqual({ uncertainty: 0.2, degreesOfFreedom: 8 });
});

test("two baseline readings have a scatter of their own: u = |a − b|/2, one degree of freedom", () => {
  expect(baselineSet([-1, -3], 0.1, 0.5)).toEqual({ uncertainty: 1, degreesOfFreedom: 1 });
});

test("movement of the baseline counts beyond its own uncertainty only", () => {
  expect(baselineMovement(-1.4, -0.8, 0, 0)).toBeCloseTo(0.6, 15);
  expect(baselineMovement(-1.4, -0.8, 0.3, 0.3) ** 2).toBeCloseTo(0.36 - 0.18, 15);
  expect(baselineMovement(-1, -1.1, 0.3, 0.3)).toBe(0);
});

test("wind and stack: a tenth of 0.5·1.25·2² Pa, and of 3.5 Pa over 8 m at 20/0 °C twice over", () => {
  expect(windHalfWidth(0.1, 1, 1.25, 2)).toBeCloseTo(0.25, 15);
  expect(stackHalfWidth(0.1, 1.2922, 8, { indoor: 20, outdoor: 0 })).toBeCloseTo(0.1 * 6.916, 3);
});

test.each([
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.9004, upper: 1.0996 }, 0.015, "validated"],
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.904, upper: 1.1 }, 0.015, "acceptable"],
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.9, upper: 1.1052 }, 0.015, "neither"],
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.9, upper: 1.1052 }, 0.15, "acceptable"],
])("agreement of %o and %o with u = %d: %s", (budget, found, uncertainty, outcome) => {
  expect(agreement(budget, found, uncertainty)).toBe(outcome);
});

describe("simulation", () => {
  const terms = { trials: 20_000, seed: 7, confidence: 0.95 };
  const flow: Output = { of: "flow", pressure: 50 };
  const run = (
    sources: Source[],
    shared: Source[] = [],
    random: "scatter" | { pressure: number; fan: number } = { pressure: 0, fan: 0 },
  ) => simulate([{ test: made("depressurization"), sources, random }], shared, [([result]) => result!(flow)], terms);

  test("one rectangular source fills its interval evenly; one normal source has its quantiles", () => {
    const [level] = run([]).distributions!;
    const even = run([rectangular("x", "flowGain", 0.01)]).distributions![0]!;
    expect(Math.abs((even.upper - level!.mean) / Math.log(1.0095) - 1)).toBeLessThan(0.01);
    expect(even.standardDeviation).toBeCloseTo(0.01 / Math.sqrt(3), 4);
    const bell = run([], [normal("x", "flowGain", 0.01)]).distributions![0]!;
    expect(Math.abs((bell.upper - bell.lower) / 2 / 0.0196 - 1)).toBeLessThan(0.03);
  });

  test("too many trials that could not be evaluated give no result", () => {
    const { dropped, distributions } = run([rectangular("x", "offset", 14)]);
    expect(dropped).toBeGreaterThan(20);
    expect(distributions).toBeUndefined();
  });

  test("the same seed gives the same numbers, another one others", () => {
    expect(run([], [], "scatter")).toEqual(run([], [], "scatter"));
  });
});

test("the random part is the larger of scatter and stated, for each result by itself", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 3, noNaN: true }), (pressure) => {
      for (const output of outputs) {
        const rows = budgetRows(made("pressurization"), [], output, { pressure, fan: 0.001 }, "p");
        const [scatter, stated] = rows;
        const counted = rows.filter(({ contained }) => contained !== true);
        expect(counted).toHaveLength(1);
        expect(counted[0]!.uncertainty).toBe(Math.max(scatter!.uncertainty, stated!.uncertainty));
      }
    }),
  );
});
