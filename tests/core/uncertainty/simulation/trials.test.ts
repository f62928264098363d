import { describe, expect, test } from "vitest";
import {
  noErrors,
  normal,
  ofOpening,
  placeOf,
  prepare,
  randomStream,
  rectangular,
  simulate,
  trial,
  type Source,
} from "../../../../src/core";
import { exact, flow, n, down, up } from "./prepared";

const shared: Source[] = [rectangular("g_e", "gaugeGain", 0.01), normal("m", "openingExponent", 0.005)].flatMap(
  (source) => (source.effect === "openingExponent" ? [ofOpening(source, 0), ofOpening(source, 1)] : [source]),
);

const own: Source[] = [normal("B1", "baselineBefore", 0.3), rectangular("wind", "offset", 0.6)];

const terms = { trials: 41, seed: 12, confidence: 0.9 };

/** The quantile between neighbours in order, as JCGM 101:2008 7.7 allows: the ends of what encloses 90 % of 41 values are the 3rd and the 39th. */
function summary(values: readonly number[]) {
  const sorted = [...values].sort((a, b) => a - b);
  const mean = values.reduce((a, b) => a + b) / values.length;
  const squares = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  return { mean, standardDeviation: Math.sqrt(squares / (values.length - 1)), lower: sorted[2]!, upper: sorted[38]! };
}

/** Random errors of seven readings, pressure and flow by turns. */
function drawn({ normal }: ReturnType<typeof randomStream>, noise: { pressure: number; flow: number }, scale: number) {
  const [pressure, logFlow]: [number[], number[]] = [[], []];
  for (let row = 0; row < 7; row++) {
    pressure.push(scale * noise.pressure * normal());
    logFlow.push(scale * noise.flow * normal());
  }
  return { pressure, logFlow };
}

function expectSame(found: Record<string, number>, expected: Record<string, number>) {
  for (const [name, value] of Object.entries(expected)) expect(found[name], name).toBeCloseTo(value, 12);
}

describe("trial by trial, with the same stream (JCGM 101:2008, clause 7)", () => {
  test("readings as noisy as stated: shared errors are drawn once and act in both directions, own errors in theirs", () => {
    const noise = { pressure: 0.5, flow: 0.02, stated: true };
    const tests = [down, up].map((one) => prepare({ ...one, noise }));
    expect(tests.map(({ random }) => random.scale)).toEqual([1, 1]);
    const directions = tests.map((one) => ({ test: one, sources: own }));
    const { dropped, distributions } = simulate(
      directions,
      shared,
      [([one, other]) => (one!(flow) + other!(flow)) / 2, ([one]) => one!(n)],
      terms,
    );
    const stream = randomStream(terms.seed);
    const draw = ({ law, uncertainty }: Source) =>
      uncertainty * (law === "normal" ? stream.normal() : Math.sqrt(3) * (2 * stream.uniform() - 1));
    const [means, exponents]: [number[], number[]] = [[], []];
    for (let number = 0; number < terms.trials; number++) {
      const common = shared.map((source) => [placeOf(source), draw(source)] as const);
      const each = [down, up].map(() => own.map((source) => [placeOf(source), draw(source)] as const));
      const results = [down, up].map((one, index) => {
        const errors = noErrors();
        for (const [place, error] of [...common, ...each[index]!]) errors[place]! += error;
        return trial(one, errors, drawn(stream, noise, 1))!;
      });
      means.push((results[0]!(flow) + results[1]!(flow)) / 2);
      exponents.push(results[0]!(n));
    }
    expect(dropped).toBe(0);
    expectSame({ ...distributions![0]! }, summary(means));
    expectSame({ ...distributions![1]! }, summary(exponents));
  });

  test("readings that scatter as they do: the scale is drawn from its χ² of N − 2, then two errors for each reading", () => {
    const { distributions } = simulate([{ test: down, sources: [] }], [], [([one]) => one!(flow)], terms);
    const stream = randomStream(terms.seed);
    const values = Array.from({ length: terms.trials }, () => {
      const chiSquare = Array.from({ length: 5 }, () => stream.normal() ** 2).reduce((a, b) => a + b);
      const scale = down.random.scale * Math.sqrt(5 / chiSquare);
      return trial(down, noErrors(), drawn(stream, down.noise, scale))!(flow);
    });
    expectSame({ ...distributions![0]! }, summary(values));
  });

  test("two sources that act in one place add up; a source of both directions starts each trial anew", () => {
    const two = [normal("one", "flowGain", 0.01), normal("other", "flowGain", 0.02)];
    const { distributions } = simulate([{ test: exact, sources: [] }], two, [([one]) => one!(flow)], {
      ...terms,
      trials: 2,
    });
    const stream = randomStream(terms.seed);
    const level = trial(exact, noErrors())!(flow);
    const values = [0, 1].map(() => {
      const gain = 0.01 * stream.normal() + 0.02 * stream.normal();
      for (let unused = 0; unused < 5 + 14; unused++) stream.normal();
      return level + Math.log1p(gain);
    });
    expect(distributions![0]!.mean).toBeCloseTo((values[0]! + values[1]!) / 2, 12);
    // With two values the ends lie a twentieth of their distance inside.
    const [least, most] = [Math.min(...values), Math.max(...values)];
    expect(distributions![0]!.lower).toBeCloseTo(least + 0.05 * (most - least), 12);
    expect(distributions![0]!.upper).toBeCloseTo(most - 0.05 * (most - least), 12);
  });
});

describe("trials that cannot be evaluated", () => {
  const run = (halfWidth: number, trials: number) =>
    simulate([{ test: exact, sources: [rectangular("x", "offset", halfWidth)] }], [], [([one]) => one!(flow)], {
      ...terms,
      trials,
    });

  test("one in a thousand may be left out, not more", () => {
    // The lowest induced pressure is 12 Pa: an offset of 24 Pa turns a quarter of the trials.
    const many = run(24, 400);
    expect(many.dropped).toBeGreaterThan(60);
    expect(many.dropped).toBeLessThan(140);
    expect(many).not.toHaveProperty("distributions");
    expect(run(11, 400)).toMatchObject({ dropped: 0 });
    // 12.02 Pa and more is beyond it in one of 1 200 trials on average.
    const few = [...Array(40).keys()].map((seed) =>
      simulate([{ test: exact, sources: [rectangular("x", "offset", 12.01)] }], [], [([one]) => one!(flow)], {
        trials: 1000,
        seed,
        confidence: 0.9,
      }),
    );
    expect(few.some(({ dropped }) => dropped === 1)).toBe(true);
    for (const { dropped, distributions } of few) expect(distributions !== undefined).toBe(dropped <= 1);
  });

  test.each([
    ["an induced pressure", "offset", 12],
    ["a fan pressure", "fanGain", -2],
    ["a fan pressure by its zero", "fanZero", -95],
    ["a flow", "flowGain", -1],
    ["a flow of one opening", "openingGain", -1],
    ["a size", "size", -1],
    ["the air's pressure", "barometer", -97_000],
  ] as const)("%s that is not above 0", (_, effect, error) => {
    const errors = noErrors();
    errors[placeOf({ effect })] = error;
    expect(trial(down, errors)).toBeUndefined();
    errors[placeOf({ effect })] = 0.9 * error;
    if (effect !== "fanGain") expect(trial(down, errors)).toBeDefined();
  });
});
