import { describe, expect, it } from "vitest";
import metadata from "../../src/functions/functions.json";
import * as functions from "../../src/functions/index";
import { examples } from "../../src/functions/examples";
import { slow } from "../time-outs";

type Call = (...given: unknown[]) => unknown;
const code = new Map(Object.entries(functions).map(([name, body]) => [name.toUpperCase(), body as Call]));

/** Rows of a column in Excel: Microsoft, "Excel specifications and limits". */
const excelRows = 1_048_576;

/**
 * Rows of a whole column in most of these tests: more than the cells of the largest result, and more than the arguments that a call can carry, which are the
 * two bounds that a long column meets. All of Excel's rows would take eight times as long and meet no third.
 */
const columnRows = 130_000;

/** The example with a rated pressure in each row: below a single cell, blank rows would lack theirs. */
const ownExamples: Readonly<Record<string, readonly unknown[]>> = {
  COMPONENTLEAKAGE: [
    [[20], [2]],
    [[3], [9]],
    [[100], [100]],
  ],
};

/** A call as Excel makes it for the example on the page: numbers reach a range as a cell, what is left out as nothing. */
function exampleCall(id: string, parameters: readonly { dimensionality?: string }[]): unknown[] {
  const values = ownExamples[id] ?? examples[id]!.arguments;
  return parameters.map(({ dimensionality }, index) => {
    const value = values[index] ?? null;
    return dimensionality === "matrix" && value !== null && !Array.isArray(value) ? [[value]] : value;
  });
}

/** The range followed by blank rows down to the end of the sheet, as the host hands over A:A; or down to a row before that. */
function downToTheEnd(range: unknown, blank: null | 0, end = columnRows): unknown {
  if (!Array.isArray(range)) return range;
  const rows = range as unknown[][];
  const blankRow = (rows[0] ?? []).map(() => blank);
  return [...rows, ...Array<unknown[]>(end - rows.length).fill(blankRow)];
}

function outcomeOf(id: string, given: readonly unknown[]): unknown {
  try {
    return code.get(id)!(...given);
  } catch (error) {
    return (error as Error).message;
  }
}

const tooLarge =
  /^(\w+): the result would have [\d ]+ cells, more than Excel's limit of 100 000; give the rows in use, /;

/** Functions whose result does not grow with their ranges. */
const small = new Set(
  [
    "AVERAGEDRESULT BASELINEPRESSURE COMPONENTLEAKAGE ENVELOPEVOLUME FLOORAREA FLOWEXPONENT LEAKAGECOEFFICIENT LEAKAGEFIT LOGSTATIONS",
    "METHODVERSION RESULTCARD TESTRESULT TWOPOINTFLOW UNCERTAINTYBUDGET VALIDITYCHECKS",
  ].flatMap((line) => line.split(" ")),
);
/** Functions that take single numbers, and refuse a second cell there. */
const single = new Set(["AREAFLOW", "DECISIONRISK", "FANDEMAND", "FINALFORECAST", "PRESSURESTATIONS"]);

const listed = metadata.functions.map(({ id, parameters }) => ({
  id,
  parameters: parameters as readonly { name: string; dimensionality?: string }[],
}));

describe("whole columns in every range", { timeout: slow }, () => {
  it("hold more values than a call can have arguments, so that whoever spreads one fails", () => {
    const column = Array<number>(columnRows).fill(0);
    expect(() => Math.max.apply(null, column)).toThrow(RangeError);
  });

  it.each(["TESTRESULT", "AIRDENSITY"])("%s takes as many rows as a sheet of Excel has", (wanted) => {
    const { id, parameters } = listed.find((one) => one.id === wanted)!;
    const example = exampleCall(id, parameters);
    const outcome = outcomeOf(
      id,
      example.map((range) => downToTheEnd(range, null, excelRows)),
    );
    if (small.has(id)) expect(outcome).toEqual(outcomeOf(id, example));
    else expect(outcome).toMatch(/^temperature: the result would have 1 048 576 cells, /);
  });

  it.each(listed)("$id computes from them, or says that the result would be too large", ({ id, parameters }) => {
    const example = exampleCall(id, parameters);
    const outcome = outcomeOf(
      id,
      example.map((range) => downToTheEnd(range, null)),
    );
    if (small.has(id)) expect(outcome).toEqual(outcomeOf(id, example));
    else if (single.has(id)) expect(outcome).toMatch(/one cell is needed, not 130000$/);
    else {
      const [, argument] = tooLarge.exec(outcome as string) ?? expect.fail(JSON.stringify(outcome).slice(0, 300));
      expect(parameters.filter(({ dimensionality }) => dimensionality === "matrix").map(({ name }) => name)).toContain(
        argument,
      );
    }
  });

  // The result may be another one, since 0 is a value in some ranges; it is never a failure without words, nor too large to be carried.
  it.each(listed)("$id does not fail where the host sends blank cells as 0", ({ id, parameters }) => {
    const outcome = outcomeOf(
      id,
      exampleCall(id, parameters).map((range) => downToTheEnd(range, 0)),
    );
    const cells = Array.isArray(outcome) ? outcome.flat() : [outcome];
    expect(cells.length).toBeLessThanOrEqual(100_000);
    expect(cells.filter((cell) => /unexpected failure/.test(String(cell)))).toEqual([]);
  });
});

describe("one long column beside single values", { timeout: slow }, () => {
  const calls = listed.flatMap(({ id, parameters }) =>
    parameters.flatMap(({ name, dimensionality }, index) =>
      dimensionality === "matrix" ? [{ id, name, parameters, index }] : [],
    ),
  );
  it.each(calls)("$id takes it for $name or refuses it in words", ({ id, parameters, index }) => {
    const given = exampleCall(id, parameters);
    given[index] = downToTheEnd(given[index] ?? [[0.5]], null);
    const outcome = outcomeOf(id, given);
    expect(Array.isArray(outcome) ? outcome.flat().length : 1).toBeLessThanOrEqual(100_000);
    if (typeof outcome === "string") expect(outcome).not.toMatch(/unexpected failure/);
  });
});

describe("the largest result", { timeout: slow }, () => {
  const column = (rows: number) => Array<unknown[]>(rows).fill([20]);

  it("has 100 000 cells, whatever its shape; one more is refused", () => {
    expect(functions.airDensity(column(100_000))).toHaveLength(100_000);
    expect(() => functions.airDensity(column(100_001))).toThrow(/^temperature: the result would have 100 001 cells/);
    expect(functions.windPressure(Array<unknown[]>(250).fill(Array(400).fill(4)))).toHaveLength(250);
    expect(() => functions.windPressure(Array<unknown[]>(250).fill(Array(401).fill(4)))).toThrow(/100 250 cells/);
  });

  it("counts the columns that a row gives: 12 500 sizes are eight columns of allowed leakage", () => {
    const settings = [["quantity", "air change rate"]];
    expect(functions.allowedLeakage([[0.6]], settings, column(12_500))).toHaveLength(12_500);
    expect(() => functions.allowedLeakage([[0.6]], settings, column(12_501))).toThrow(/^volumes: .* 100 008 cells/);
  });

  it("is refused before a row is computed: the wrong cells in it are not named", () => {
    const wrong = [...column(100_000), ["warm"]];
    expect(() => functions.airDensity(wrong)).toThrow(/cells, more than/);
  });

  it("of a log is named by its stations, with what makes fewer", () => {
    // 6 251 stations of sixteen cells: a pressure that moves by 10 Pa every five rows of 5 s.
    const log = Array.from({ length: 6_251 * 8 }, (_, row) => [5 * row, Math.floor(row / 8) % 2 === 0 ? -50 : -40]);
    expect(() => functions.logStations(log)).toThrow(
      /^log: the result would have \d{3} \d{3} cells, .*; a longer "shortest station" finds fewer/,
    );
  });
});
