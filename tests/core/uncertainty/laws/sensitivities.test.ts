import { describe, expect, test } from "vitest";
import {
  noErrors,
  normal,
  ofOpening,
  placeOf,
  prepare,
  readingResponse,
  sensitivity,
  trial,
  usualBend,
  type Direction,
  type Effect,
  type Output,
  type PreparedTest,
  type Technique,
} from "../../../../src/core";
import { outputs, made } from "./prepared";

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

describe.each(techniques.flatMap((technique) => directions.map((direction) => ({ technique, direction }))))(
  "central differences of the whole model, $technique, $direction",
  ({ technique, direction }) => {
    const tests = [
      made(direction, { technique }),
      made(direction, { technique, standard: "ASTM E779" }),
      made(direction, { technique, zeroFollowsTime: true }),
    ];
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

describe("a zero that follows the time", () => {
  const timed = made("depressurization", { zeroFollowsTime: true });

  test.each(outputs)("leaves no drift, and shares the baselines out by the time: $of", (output) => {
    expect(sensitivityTo("drift", timed, output)).toBe(0);
    const both = sensitivityTo("baselineBefore", timed, output) + sensitivityTo("baselineAfter", timed, output);
    expect(Math.abs(both - sensitivityTo("baseline", timed, output))).toBeLessThan(1e-15);
  });

  test("gives the same result as readings from which a straight course was taken by hand", () => {
    const { readings, baselineBefore, baselineAfter = NaN } = timed;
    const moved = readings.map((reading) => ({
      ...reading,
      pressure: reading.pressure - (baselineAfter - baselineBefore) * reading.time,
    }));
    const byHand = prepare({ ...timed, readings: moved, baselineAfter: baselineBefore, zeroFollowsTime: false });
    expect(byHand.fit.exponent / timed.fit.exponent).toBeCloseTo(1, 12);
    expect(byHand.fit.coefficient / timed.fit.coefficient).toBeCloseTo(1, 12);
  });
});

describe("a bend of the curve", () => {
  const at = (pressure: number) => sensitivityTo("extrapolation", made("pressurization"), { of: "flow", pressure });

  test("acts beyond the readings only, more the further away, and not on the line's own coefficient", () => {
    for (const among of [12, 30, 61]) expect(at(among)).toBe(0);
    expect(at(11.9)).not.toBe(0);
    expect(Math.abs(at(4))).toBeGreaterThan(Math.abs(at(8)));
    expect(Math.abs(at(100))).toBeGreaterThan(Math.abs(at(75)));
    expect(sensitivityTo("extrapolation", made("pressurization"), { of: "flow", pressure: 1, ofLine: true })).toBe(0);
  });

  /** q of a crack (laminar) and a hole (turbulent) in series, Δp = q + k·q², and side by side, q = √Δp + k·Δp. */
  const laws = {
    series: (k: number) => (p: number) => (Math.sqrt(1 + 4 * k * p) - 1) / (2 * k),
    parallel: (k: number) => (p: number) => Math.sqrt(p) + k * p,
  };

  test.each(Object.entries(laws))(
    "of the assumed size holds the misfit of a power law to a crack and a hole in %s",
    (_, law) => {
      let worst = 0;
      for (let step = 0; step <= 200; step++) {
        const flowOf = law(10 ** (-4 + step / 33));
        const base = made("pressurization", { isExact: true });
        const curved = prepare({
          ...base,
          baselineBefore: 0,
          baselineAfter: 0,
          air: {
            ...base.air,
            temperature: { indoor: 20, outdoor: 20 },
            humidity: { indoor: 0, outdoor: 0 },
            barometricPressure: 101_325,
          },
          readings: base.points.map((point, index) => ({
            ...base.readings[index]!,
            pressure: point.pressure,
            flow: flowOf(point.pressure),
          })),
        });
        if (curved.fit.exponent < 0.6 || curved.fit.exponent > 0.75) continue;
        for (const pressure of [4, 8, 75, 100]) {
          const output: Output = { of: "flow", pressure };
          const misfit = trial(curved, noErrors())!(output) - Math.log(flowOf(pressure));
          worst = Math.max(worst, Math.abs(misfit / sensitivityTo("extrapolation", curved, output)));
        }
      }
      expect(worst).toBeLessThan(usualBend);
      expect(worst).toBeGreaterThan(0.6 * usualBend);
    },
  );
});
