import { describe, expect, test } from "vitest";
import {
  noErrors,
  normal,
  ofOpening,
  ownSources,
  placeOf,
  prepare,
  randomStream,
  rectangular,
  rowsOfMean,
  sharedSources,
  simulate,
  trial,
  type Direction,
  type Output,
  type PreparedTest,
  type Source,
} from "../../../src/core";
import vectors from "../../authorities/uncertainty-vectors/vectors.json";
import { refuses } from "../refusals";

/** An invented test of seven readings through two openings. */
function made(direction: Direction): PreparedTest {
  const side = direction === "pressurization" ? 1 : -1;
  const scatter = [0.004, -0.011, 0.006, 0.009, -0.003, -0.014, 0.008];
  return prepare({
    direction,
    readings: [61, 52, 44, 33, 27, 19, 12].map((pressure, index) => ({
      row: index + 1,
      pressure: side * pressure - 1.2,
      flow: 31 * pressure ** 0.63 * Math.exp(scatter[index]!),
      fan: { opening: index < 4 ? 0 : 1, exponent: 0.5, pressure: 80 + pressure, logOverPivot: 0.1 },
      time: (index + 0.5) / 7,
    })),
    baselineBefore: -1.4,
    baselineAfter: -1,
    air: {
      temperature: { indoor: 22, outdoor: -6 },
      humidity: { indoor: 0.4, outdoor: 0.7 },
      barometricPressure: 97_000,
    },
    standard: "ISO 9972",
    technique: "ordinary",
    allowance: { above: 0.06, below: 0.1 },
  });
}

const flow: Output = { of: "flow", pressure: 50 };
const n: Output = { of: "exponent" };
const shared: Source[] = [rectangular("g_e", "gaugeGain", 0.01), normal("m", "openingExponent", 0.005)].flatMap(
  (source) => (source.effect === "openingExponent" ? [ofOpening(source, 0), ofOpening(source, 1)] : [source]),
);
const own: Source[] = [normal("B1", "baselineBefore", 0.3), rectangular("wind", "offset", 0.6)];
const terms = { trials: 41, seed: 12, confidence: 0.9 };
const [down, up] = [made("depressurization"), made("pressurization")];

/** The quantile between neighbours in order, as JCGM 101:2008 7.7 allows: the ends of what encloses 90 % of 41 values are the 3rd and the 39th. */
function summary(values: readonly number[]) {
  const sorted = [...values].sort((a, b) => a - b);
  const mean = values.reduce((a, b) => a + b) / values.length;
  const squares = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  return { mean, standardDeviation: Math.sqrt(squares / (values.length - 1)), lower: sorted[2]!, upper: sorted[38]! };
}

function expectSame(found: Record<string, number>, expected: Record<string, number>) {
  for (const [name, value] of Object.entries(expected)) expect(found[name], name).toBeCloseTo(value, 12);
}

describe("trial by trial, with the same stream (JCGM 101:2008, clause 7)", () => {
  test("readings as noisy as stated: shared errors are drawn once and act in both directions, own errors in theirs", () => {
    const stated = { pressure: 0.5, fan: 0.02 };
    const directions = [down, up].map((one) => ({ test: one, sources: own, random: stated }));
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
        const [pressure, fan]: [number[], number[]] = [[], []];
        for (let row = 0; row < 7; row++) {
          pressure.push(stated.pressure * stream.normal());
          fan.push(stated.fan * stream.normal());
        }
        return trial(one, errors, { pressure, fan })!;
      });
      means.push((results[0]!(flow) + results[1]!(flow)) / 2);
      exponents.push(results[0]!(n));
    }
    expect(dropped).toBe(0);
    expectSame({ ...distributions![0]! }, summary(means));
    expectSame({ ...distributions![1]! }, summary(exponents));
  });

  test("readings that scatter as they do: the deviation is drawn from its χ² of N − 2, then one error a reading", () => {
    const { distributions } = simulate(
      [{ test: down, sources: [], random: "scatter" }],
      [],
      [([one]) => one!(flow)],
      terms,
    );
    const stream = randomStream(terms.seed);
    const values = Array.from({ length: terms.trials }, () => {
      const chiSquare = Array.from({ length: 5 }, () => stream.normal() ** 2).reduce((a, b) => a + b);
      const deviation = down.fit.residualDeviation * Math.sqrt(5 / chiSquare);
      return trial(down, noErrors(), { logFlow: Array.from({ length: 7 }, () => deviation * stream.normal()) })!(flow);
    });
    expectSame({ ...distributions![0]! }, summary(values));
  });

  test("two sources that act in one place add up; a source of both directions starts each trial anew", () => {
    const two = [normal("one", "flowGain", 0.01), normal("other", "flowGain", 0.02)];
    const { distributions } = simulate(
      [{ test: down, sources: [], random: { pressure: 0, fan: 0 } }],
      two,
      [([one]) => one!(flow)],
      { ...terms, trials: 2 },
    );
    const stream = randomStream(terms.seed);
    const level = trial(down, noErrors())!(flow);
    const values = [0, 1].map(() => {
      const gain = 0.01 * stream.normal() + 0.02 * stream.normal();
      for (let unused = 0; unused < 14; unused++) stream.normal();
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
    simulate(
      [{ test: down, sources: [rectangular("x", "offset", halfWidth)], random: { pressure: 0, fan: 0 } }],
      [],
      [([one]) => one!(flow)],
      { ...terms, trials },
    );

  test("one in a thousand may be left out, not more", () => {
    // The lowest induced pressure is 12 Pa: an offset of 24 Pa turns a quarter of the trials.
    const many = run(24, 400);
    expect(many.dropped).toBeGreaterThan(60);
    expect(many.dropped).toBeLessThan(140);
    expect(many).not.toHaveProperty("distributions");
    expect(run(11, 400)).toMatchObject({ dropped: 0 });
    // 12.02 Pa and more is beyond it in one of 1 200 trials on average.
    const few = [...Array(40).keys()].map((seed) =>
      simulate(
        [{ test: down, sources: [rectangular("x", "offset", 12.01)], random: { pressure: 0, fan: 0 } }],
        [],
        [([one]) => one!(flow)],
        { trials: 1000, seed, confidence: 0.9 },
      ),
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

describe("errors of single readings", () => {
  const { readings } = down;
  const changed = (change: (index: number) => Partial<(typeof readings)[number]>) =>
    prepare({ ...down, readings: readings.map((reading, index) => ({ ...reading, ...change(index) })) });
  const noise = [0.3, -0.2, 0.1, -0.4, 0.2, 0.05, -0.1];
  const same = (found: PreparedTest, errors: Float64Array, given: Parameters<typeof trial>[2]) => {
    for (const output of [flow, n]) {
      expect(trial(down, errors, given)!(output)).toBeCloseTo(trial(found, noErrors())!(output), 12);
    }
  };

  test("of the pressure in Pa, of the fan pressure as a fraction, of ln q", () => {
    same(
      changed((index) => ({ pressure: readings[index]!.pressure + noise[index]! })),
      noErrors(),
      { pressure: noise },
    );
    same(
      changed((index) => ({ flow: readings[index]!.flow * (1 + noise[index]!) ** 0.5 })),
      noErrors(),
      { fan: noise },
    );
    same(
      changed((index) => ({ flow: readings[index]!.flow * Math.exp(noise[index]!) })),
      noErrors(),
      { logFlow: noise },
    );
  });

  test("an error of the device's exponent turns about the pivot, with the fan pressure as it truly was", () => {
    const errors = noErrors();
    errors[placeOf({ effect: "fanGain" })] = 0.2;
    for (const opening of [0, 1]) errors[placeOf({ effect: "openingExponent", opening })] = 0.03;
    const factor = 1.2 ** 0.5 * Math.exp(0.03 * (0.1 + Math.log(1.2)));
    same(
      changed((index) => ({ flow: readings[index]!.flow * factor })),
      errors,
      {},
    );
  });

  test("a baseline read once acts with its whole error, one read twice with half of each", () => {
    const errors = noErrors();
    errors[placeOf({ effect: "baselineBefore" })] = 0.8;
    errors[placeOf({ effect: "baselineAfter" })] = 0.4;
    same(
      changed((index) => ({ pressure: readings[index]!.pressure - 0.6 })),
      errors,
      {},
    );
    const open = Object.fromEntries(Object.entries(down).filter(([name]) => name !== "baselineAfter"));
    const once = prepare(open as unknown as PreparedTest);
    const moved = prepare({ ...once, readings: readings.map((one) => ({ ...one, pressure: one.pressure - 0.8 })) });
    expect(trial(once, errors)!(flow)).toBeCloseTo(trial(moved, noErrors())!(flow), 12);
  });

  test("the fan gauge's zero cannot be told where only the flow is known", () => {
    const unknown = changed((index) => {
      const { opening, exponent, logOverPivot } = readings[index]!.fan;
      return { fan: { opening, exponent, logOverPivot } };
    });
    const errors = noErrors();
    errors[placeOf({ effect: "fanZero" })] = 5;
    expect(trial(unknown, errors)!(flow)).toBe(trial(unknown, noErrors())!(flow));
    expect(trial(down, errors)!(flow)).not.toBe(trial(down, noErrors())!(flow));
  });
});

describe("sources", () => {
  const names = [
    "g_e",
    "o_e",
    "g_f",
    "o_f",
    "gamma_0",
    "gamma",
    "m",
    "theta_i",
    "theta_e",
    "p_bar",
    "phi_i",
    "phi_e",
    "stack",
    "size",
    "model",
  ] as const;
  const widths = Object.fromEntries(names.map((name, index) => [name, index + 1])) as Record<
    (typeof names)[number],
    number
  >;

  test("each acts in its place; the openings have their own calibrations", () => {
    const shown = sharedSources(widths, 12, false);
    expect(shown.map(({ symbol, effect }) => [symbol, effect])).toEqual([
      ["g_e", "gaugeGain"],
      ["o_e", "offset"],
      ["g_f", "fanGain"],
      ["o_f", "fanZero"],
      ["gamma_0", "flowGain"],
      ...["A", "B", "C"].map((letter) => [`gamma_${letter}`, "openingGain"]),
      ...["A", "B", "C"].map((letter) => [`m_${letter}`, "openingExponent"]),
      ["theta_i", "indoorTemperature"],
      ["theta_e", "outdoorTemperature"],
      ["p_bar", "barometer"],
      ["phi_i", "indoorHumidity"],
      ["phi_e", "outdoorHumidity"],
      ["stack", "offset"],
      ["size", "size"],
      ["model", "extrapolation"],
    ]);
    expect(shown.find(({ symbol }) => symbol === "gamma_C")).toMatchObject({ opening: 2, uncertainty: 6 });
    for (const { symbol, degreesOfFreedom } of shown) expect(degreesOfFreedom).toBe(symbol === "size" ? 12 : Infinity);
  });

  test("one calibration for both gauges changes the two gains and nothing else", () => {
    const [apart, together] = [sharedSources(widths, 12, false), sharedSources(widths, 12, true)];
    expect(together.map(({ symbol }) => symbol)).toEqual(apart.map(({ symbol }) => symbol));
    together.forEach((source, index) => {
      const usual = apart[index]!;
      if (source.symbol === "g_e") expect(source).toEqual({ ...usual, effect: "bothGaugeGains" });
      else if (source.symbol === "g_f") expect(source).toEqual({ ...usual, uncertainty: 0 });
      else expect(source).toEqual(usual);
    });
  });

  test("of one direction: baselines, their movement beyond their own uncertainty, wind", () => {
    const set = (uncertainty: number) => ({ uncertainty, degreesOfFreedom: 4 });
    const both = ownSources({ baselineBefore: -1, baselineAfter: 0 }, set(0.6), set(0), 0.3, "d");
    expect(both.map(({ symbol, effect }) => [symbol, effect])).toEqual([
      ["B1_d", "baselineBefore"],
      ["B2_d", "baselineAfter"],
      ["B_d", "baseline"],
      ["drift_d", "drift"],
      ["wind_d", "offset"],
    ]);
    // Moved by 1 Pa, of which 0.6 Pa may be its own uncertainty: 0.8 Pa are left.
    const expected = [0.6, 0, 0.4 / Math.sqrt(3), 0.8 / Math.sqrt(3), 0.3 / Math.sqrt(3)];
    both.forEach(({ uncertainty }, index) => expect(uncertainty).toBeCloseTo(expected[index]!, 12));
    const one = ownSources({ baselineBefore: -1 }, set(0.6), undefined, 0.3, "p");
    expect(one.map(({ uncertainty }) => uncertainty)).toEqual([0.6, 0, 0, 0, 0.3 / Math.sqrt(3)]);
    expect(one[1]!.degreesOfFreedom).toBe(Infinity);
  });
});

describe("a test is prepared", () => {
  const { readings, ...rest } = down;
  refuses("invalid", [
    [
      "pressures, row 2: -1.2 Pa does not exceed the baseline of -1.2 Pa",
      () => prepare({ ...rest, readings: readings.map((one) => (one.row === 2 ? { ...one, pressure: -1.2 } : one)) }),
    ],
  ]);

  test("with the induced pressures as magnitudes", () => {
    expect(down.points.map(({ pressure }) => Math.round(pressure * 1e9) / 1e9)).toEqual([61, 52, 44, 33, 27, 19, 12]);
    // Without a baseline after the test, that before it counts alone.
    const open = Object.fromEntries(Object.entries(down).filter(([name]) => name !== "baselineAfter"));
    expect(prepare(open as unknown as PreparedTest).points[0]!.pressure).toBeCloseTo(60.8, 12);
  });
});

test.each(vectors.generator)(
  "xoshiro128** from seed $seed: the integers of the vectors, uniforms from the middle of each",
  (given) => {
    const [integers, uniforms] = [randomStream(given.seed), randomStream(given.seed)];
    for (const expected of given.first_integers) {
      expect(integers.integer()).toBe(expected);
      expect(uniforms.uniform()).toBe((expected + 0.5) / 2 ** 32);
    }
  },
);

test("one source in both directions shows the larger uncertainty and the fewer degrees of freedom", () => {
  const row = (uncertainty: number, degreesOfFreedom: number) => ({
    symbol: "x",
    uncertainty,
    sensitivity: 1,
    degreesOfFreedom,
  });
  for (const pair of [
    [row(2, 9), row(4, 30)],
    [row(4, 30), row(2, 9)],
  ] as const) {
    expect(rowsOfMean([pair[0]], [pair[1]], [0.5, 0.5])).toEqual([
      { symbol: "x", uncertainty: 4, sensitivity: 0.75, degreesOfFreedom: 9 },
    ]);
  }
});

test("xoshiro128** starts from the published constants: another seed gives another stream, normals come in pairs", () => {
  const [one, two] = [randomStream(1), randomStream(1)];
  const radius = Math.sqrt(-2 * Math.log(two.uniform()));
  const angle = 2 * Math.PI * two.uniform();
  expect(one.normal()).toBe(radius * Math.cos(angle));
  expect(one.normal()).toBe(radius * Math.sin(angle));
  expect(one.uniform()).toBe(two.uniform());
});
