import { describe, expect, test } from "vitest";
import { calibratedValue, onePointFlow, twoPointFlow } from "../../src/functions";
import { cellsOf, column, errorIn, refusal } from "./errors";

const row = (table: unknown[][], symbol: string) => table.find((cells) => cells[1] === symbol)!;

describe("ONEPOINTFLOW", () => {
  test("a column of tests, blanks staying blank, errors in their row, headings above", () => {
    const flows = column(500, "", 0, 620, "x");
    const rows = onePointFlow(flows, [[-50]], undefined, undefined, undefined, "yes");
    expect(rows[0]).toEqual(["flow", "lower", "upper", "standard uncertainty", "induced pressure, Pa", "exponent"]);
    expect(rows[1]).toEqual([500, 500, 500, 0, -50, 0.65]);
    expect(rows[2]).toEqual(Array(6).fill(""));
    expect(rows[3]).toEqual(Array(6).fill(""));
    expect(rows[4]![0]).toBe(620);
    expect(errorIn(rows[5]![0])).toEqual({
      code: "#VALUE!",
      message: 'flow, row 5: a number is needed, not the text "x"',
    });
  });

  test("the baseline comes off with its sign, 0 Pa included, and a reading within it is refused", () => {
    expect(onePointFlow([[500]], [[-52]], undefined, undefined, [[-2]])[0]![4]).toBe(-50);
    expect(onePointFlow([[500]], [[-50]], undefined, undefined, [[0]])[0]![4]).toBe(-50);
    expect(refusal(() => onePointFlow([[500]], [[-2]], undefined, undefined, [[-3]])).message).toBe(
      "pressure: -2 Pa does not exceed the baseline of -3 Pa",
    );
    const rows = onePointFlow([[500]], column(-52, -2), undefined, undefined, [[-3]]);
    expect(errorIn(rows[1]![0]).message).toMatch(/^pressure, row 2: -2 Pa/);
  });

  test("an exponent alone is still an assumption; beside its standard uncertainty it is a measured one", () => {
    const relative = (exponent: unknown[][]) => {
      const [flow, , , u] = onePointFlow([[500]], [[40]], exponent)[0] as number[];
      return u! / flow! / Math.log(50 / 40);
    };
    expect(relative([[0.6]])).toBeCloseTo(0.057, 12);
    expect(relative([[0.6, 0.01]])).toBeCloseTo(0.01, 12);
    expect(relative([[0.6, 0]])).toBe(0);
    expect(relative([["", ""]])).toBeCloseTo(0.057, 12);
    expect(refusal(() => onePointFlow([[500]], [[40]], [[6.5]])).message).toMatch(/^exponent: from 0.5 to 1/);
    expect(refusal(() => onePointFlow([[500]], [[40]], [[0.6, -1]])).message).toMatch(/^exponent: /);
    expect(refusal(() => onePointFlow([[500]], [[40]], [[0.6, 0.01, 1]])).message).toMatch(/^exponent: /);
  });
});

describe("TWOPOINTFLOW", () => {
  const [high, low] = [
    [505, 509, 507, 503, 508],
    [206, 204, 208, 207, 205],
  ] as const;
  const two = high.map((flow, index) => [flow, low[index]!]);
  const pressures = high.map(() => [50, 12.5]);
  const swapped = (rows: number[][]) => rows.map(([a, b]) => [b!, a!]);

  test("two columns in any order, one column, and signed readings less their baseline give one and the same", () => {
    const expected = twoPointFlow(two, pressures);
    expect(twoPointFlow(swapped(two), swapped(pressures))).toEqual(expected);
    expect(twoPointFlow(column(...high, ...low), column(...high.map(() => 50), ...low.map(() => 12.5)))).toEqual(
      expected,
    );
    const signed = pressures.map((pair) => pair.map((pressure) => -pressure - 1.5));
    expect(twoPointFlow(two, signed, undefined, [[-1], [-2]])).toEqual(expected);
    expect(row(expected, "n")[2]).toBeCloseTo(Math.log(506.4 / 206) / Math.log(4), 13);
  });

  test("blank repeats are skipped, half a repeat is missing its other half", () => {
    const gappy = [...two, ["", ""], [0, 0]];
    expect(twoPointFlow(gappy, [...pressures, ["", ""], [0, 0]])).toEqual(twoPointFlow(two, pressures));
    expect(refusal(() => twoPointFlow([...two, [500, ""]], [...pressures, [50, 12.5]])).code).toBe("#N/A");
  });

  test("without repeats there is a flow and no limits, and the table says why", () => {
    const table = twoPointFlow([[505], [206]], [[50], [12.5]]);
    expect(row(table, "q_p").slice(0, 5)).toEqual(["flow at 50 Pa, no limits without repeats", "q_p", 505, "", ""]);
    expect(row(table, "u_q")[2]).toBe("");
  });

  test("an exponent that no house has is shown as doubtful", () => {
    expect(row(twoPointFlow([[505], [380]], [[50], [12.5]]), "n")[0]).toContain("outside 0.5 to 1");
  });

  test("both directions in one test, unlike sizes and one pressure only are refused", () => {
    expect(
      refusal(() =>
        twoPointFlow(
          two,
          pressures.map(() => [50, -12.5]),
        ),
      ).message,
    ).toMatch(/^pressures/);
    expect(refusal(() => twoPointFlow(two, [[50, 12.5]])).message).toMatch(/^flows: .*the numbers must match/);
    expect(refusal(() => twoPointFlow([[505]], [[50]])).code).toBe("#N/A");
    expect(
      refusal(() =>
        twoPointFlow(
          two,
          pressures.map(() => ["", 12.5]),
        ),
      ).code,
    ).toBe("#N/A");
  });
});

describe("CALIBRATEDVALUE", () => {
  // An invented certificate: 10 shows 10.2, 50 shows 49.8, 100 shows 100.4.
  const table = [
    [100, 100.4],
    [10, 10.2],
    [50, 49.8],
  ];

  test("straight lines between the points, in whatever order they are listed, the points themselves exactly", () => {
    const given = column(10, 30, 50, 75, 100, "");
    expect(cellsOf(calibratedValue(given, table))).toEqual([10.2, 30, 49.8, expect.closeTo(75.1, 12), 100.4, ""]);
    expect(
      cellsOf(
        calibratedValue(column(0, -25), [
          [-50, -50.5],
          [50, 50.1],
        ]),
      ),
    ).toEqual([expect.closeTo(-0.2, 12), expect.closeTo(-25.35, 12)]);
  });

  test("never outside: each reading beyond an end is its own error", () => {
    const [below, within, above] = cellsOf(calibratedValue(column(9.9, 20, 101), table));
    expect(within).toBeCloseTo(10.2 + (39.6 * 10) / 40, 12);
    expect(errorIn(below)).toEqual({
      code: "#VALUE!",
      message: "reading, row 1: 9.9 lies outside the calibrated range, 10 to 100",
    });
    expect(errorIn(above).message).toMatch(/^reading, row 3: 101 lies outside/);
  });

  test("blank rows do not turn into a point at zero, whichever way the host sends them", () => {
    for (const blank of [
      ["", ""],
      [null, null],
      [0, 0],
    ]) {
      const padded = [...table.slice(1), blank, table[0]!, blank, blank];
      expect(refusal(() => calibratedValue([[5]], padded)).message).toMatch(/^reading: 5 lies outside/);
    }
    expect(calibratedValue([[5]], [[0, 0], ...table.slice(1)])).toEqual([[5.1]]);
    expect(
      calibratedValue(
        [[-5]],
        [
          [-10, -9],
          [0, 0],
          [10, 11],
        ],
      ),
    ).toEqual([[-4.5]]);
  });

  test("too few points, half a point, one reading twice", () => {
    expect(refusal(() => calibratedValue([[20]], [[10, 10.2]])).code).toBe("#N/A");
    expect(refusal(() => calibratedValue([[20]], [...table, [60, ""]]))).toEqual({
      code: "#N/A",
      message: "table, row 4: a reading without its value",
    });
    expect(refusal(() => calibratedValue([[20]], [...table, [50, 49.9]])).message).toMatch(/^table, row 4: .*twice/);
    expect(refusal(() => calibratedValue([[20]], [[1], [2]])).message).toMatch(
      /^table: the columns are: reading and true value \(got 1\)/,
    );
  });
});
