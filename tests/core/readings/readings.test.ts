import { describe, expect, test } from "vitest";
import {
  baselinePressure,
  calibratedValue,
  calibrationTable,
  countExactZeros,
  fanFlow,
  inducedPressures,
  toIndoorsMinusOutdoors,
} from "../../../src/core";
import { refuses, takes } from "../refusals";

const rows = (...values: number[]) => values.map((value, index) => ({ row: index + 1, value }));
const table = (...points: (readonly [number, number])[]) =>
  points.map(([reading, value], index) => ({ reading, value, row: index + 1 }));

describe("baseline", () => {
  refuses("missing", [
    ["baseline before: notGiven", () => baselinePressure([])],
    ["baseline after: notGiven", () => baselinePressure([1], [])],
    ["before: notGiven", () => baselinePressure([], [], ["before", "after"])],
    ["after: notGiven", () => baselinePressure([1], [], ["before", "after"])],
  ]);

  test("both sets weigh the same, however many readings each has", () => {
    expect(baselinePressure([-1, -2, -3], [4])).toEqual({ before: -2, after: 4, pressure: 1 });
    expect(baselinePressure([-1, -2, -3])).toEqual({ before: -2, pressure: -2 });
  });
});

describe("baseline readings that are exactly 0", () => {
  test.each([
    ["blank cells sent as 0 among readings", [-1.2, 0, -1.6, 0], 2],
    ["a sign before the 0 changes nothing", [-1.2, -0, 0.1], 1],
    ["none", [-1.2, 0.1, 1e-300], 0],
    ["every reading 0, as on a still day", [0, 0, 0], 0],
    ["no reading", [], 0],
  ])("%s", (_, readings, count) => {
    expect(countExactZeros(readings)).toBe(count);
  });
});

test("a large common part costs the mean no digits (two-pass mean of Chan, Golub and LeVeque 1983)", () => {
  // Summed plainly, these nine give 3e15 + 4.5.
  const values = Array.from({ length: 9 }, (_, index) => 3e15 + index);
  expect(baselinePressure(values).pressure).toBe(3e15 + 4);
});

describe("induced pressures", () => {
  refuses("invalid", [
    ["direction: notGiven", () => inducedPressures(rows(50), 0, "magnitude")],
    [
      "readings, row 2: aboveZero",
      () => inducedPressures(rows(50, -40), 0, "magnitude", "depressurization"),
      { got: -40 },
    ],
    [
      "pressures, row 2: aboveZero",
      () => inducedPressures(rows(50, 0), 0, "magnitude", "pressurization", "pressures"),
      { got: 0 },
    ],
    [
      "readings, row 3: otherSign",
      () => inducedPressures(rows(50, 40, -30), 0, "indoors minus outdoors"),
      { pressure: -30, first: 1 },
    ],
    [
      "readings, row 1: otherSign",
      () => inducedPressures(rows(0), 0, "indoors minus outdoors"),
      { pressure: 0, first: 1 },
    ],
    [
      "readings, row 1: otherDirection",
      () => inducedPressures(rows(-50), 0, "indoors minus outdoors", "pressurization"),
      { pressure: -50, direction: "pressurization" },
    ],
    [
      "readings, row 1: otherDirection",
      () => inducedPressures(rows(-50), 0, "outdoors minus indoors", "depressurization"),
      { pressure: 50, direction: "depressurization" },
    ],
    [
      "readings, row 2: belowBaseline",
      () => inducedPressures(rows(-50, -3), -4, "indoors minus outdoors"),
      { pressure: -3, baseline: -4 },
    ],
    [
      "readings, row 1: belowBaseline",
      () => inducedPressures(rows(-4), -4, "outdoors minus indoors"),
      { pressure: 4, baseline: 4 },
    ],
  ]);

  test("no readings are no error: the form is not filled in yet", () => {
    expect(inducedPressures([], 1, "indoors minus outdoors", "pressurization")).toEqual([]);
  });

  test("one physical test, signed in three ways, gives the same induced pressures", () => {
    const expected = [
      { row: 1, value: -48 },
      { row: 2, value: -28 },
    ];
    expect(inducedPressures(rows(-50, -30), -2, "indoors minus outdoors", "depressurization")).toEqual(expected);
    expect(inducedPressures(rows(50, 30), 2, "outdoors minus indoors", "depressurization")).toEqual(expected);
    expect(inducedPressures(rows(50, 30), -2, "magnitude", "depressurization")).toEqual(expected);
    expect(inducedPressures(rows(50, 30), -2, "magnitude", "pressurization")[0]).toEqual({ row: 1, value: 52 });
    expect(toIndoorsMinusOutdoors(3, "magnitude")).toBe(3);
  });
});

describe("flow of a calibrated device", () => {
  const opening = { coefficient: 20, exponent: 0.5, lowest: 25, highest: 400 };
  refuses("invalid", [
    ["fan pressures: aboveZero", () => fanFlow(0, opening), { got: 0 }],
    ["coefficients: aboveZero", () => fanFlow(100, { ...opening, coefficient: 0 }), { got: 0 }],
    ["exponents: aboveZeroUpTo", () => fanFlow(100, { ...opening, exponent: 0 }), { highest: 2, got: 0 }],
    ["exponents: aboveZeroUpTo", () => fanFlow(100, { ...opening, exponent: 2.1 }), { highest: 2, got: 2.1 }],
    ["lowest: zeroOrMore", () => fanFlow(22, { ...opening, lowest: -1 }), { got: -1 }],
    ["highest: highestNotAbove", () => fanFlow(22, { ...opening, highest: 20 }), { lowest: 25, got: 20 }],
    ["fan pressures: outsideCalibration", () => fanFlow(24.9, opening), { reading: 24.9, lowest: 25, highest: 400 }],
    ["fan pressures: outsideCalibration", () => fanFlow(401, opening), { reading: 401, lowest: 25, highest: 400 }],
    ["calibration density: aboveZero", () => fanFlow(100, opening, { calibration: 0, actual: 1.2 }), { got: 0 }],
    ["actual density: aboveZero", () => fanFlow(100, opening, { calibration: 1.2, actual: -1 }), { got: -1 }],
    [
      "calibration density: densityUnits",
      () => fanFlow(100, opening, { calibration: 0.0752, actual: 1.204 }),
      { calibration: 0.0752, actual: 1.204 },
    ],
    [
      "calibration density: densityUnits",
      () => fanFlow(100, opening, { calibration: 1.2041, actual: 0.075169 }),
      { calibration: 1.2041, actual: 0.075169 },
    ],
  ]);
  takes([
    ["lowest pressure", () => fanFlow(25, opening)],
    ["highest pressure", () => fanFlow(400, opening)],
    ["one pressure only", () => fanFlow(25, { ...opening, highest: 25 })],
    ["exponent 2", () => fanFlow(100, { ...opening, exponent: 2 })],
    ["half the density", () => fanFlow(100, opening, { calibration: 0.6, actual: 1.2 })],
    ["twice the density", () => fanFlow(100, opening, { calibration: 2.4, actual: 1.2 })],
  ]);

  test("without a range every fan pressure counts; densities by √(ρ_cal/ρ) (ISO 9972:2015; ASTM E779)", () => {
    const open = { coefficient: 20, exponent: 0.5 };
    expect(fanFlow(0.01, open)).toBeCloseTo(2, 12);
    expect(fanFlow(1e6, open)).toBe(20_000);
    expect(fanFlow(100, open, { calibration: 1.2, actual: 0.8 })).toBeCloseTo(200 * Math.sqrt(1.5), 10);
  });
});

describe("calibration certificate", () => {
  refuses("missing", [
    ["table: tooFew", () => calibrationTable(table([0, 0])), { least: 2, of: "calibration points", count: 1 }],
  ]);
  refuses("invalid", [
    ["table, row 3: twice", () => calibrationTable(table([10, 1], [20, 2], [10, 3])), { what: 10 }],
    ["table, row 2: pointFalls", () => calibrationTable(table([10, 20], [20, 18], [30, 31])), { value: 18 }],
    [
      "reading: outsideCalibration",
      () => calibratedValue(9, table([10, 11], [30, 32])),
      { reading: 9, lowest: 10, highest: 30 },
    ],
    [
      "reading: outsideCalibration",
      () => calibratedValue(31, table([10, 11], [30, 32])),
      { reading: 31, lowest: 10, highest: 30 },
    ],
  ]);

  test("two points with one true value are taken: a certificate rounds", () => {
    expect(calibratedValue(15, calibrationTable(table([10, 10], [20, 10])))).toBe(10);
  });

  test("by straight lines between neighbours, the points themselves included, in whatever order they were typed", () => {
    const points = calibrationTable(table([30, 33], [10, 10], [50, 54], [20, 21]));
    expect(points.map(({ row }) => row)).toEqual([2, 4, 1, 3]);
    const values = [10, 12, 20, 25, 30, 35, 50].map((reading) => calibratedValue(reading, points));
    const expected = [10, 12.2, 21, 27, 33, 38.25, 54];
    values.forEach((value, index) => expect(value).toBeCloseTo(expected[index]!, 12));
  });

  test("a reading that is an end but for its last binary digit is that end", () => {
    const points = table([0.3, 5], [0.9, 8]);
    expect(calibratedValue(0.1 + 0.2, points)).toBeCloseTo(5, 12);
    expect(calibratedValue(0.3 - 1e-12, points)).toBe(5);
    expect(calibratedValue(0.9 + 1e-12, points)).toBe(8);
  });
});
