import { describe, expect, test } from "vitest";
import {
  noErrors,
  normal,
  ofOpening,
  placeOf,
  readingResponse,
  sensitivity,
  trial,
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
