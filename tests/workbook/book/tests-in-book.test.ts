import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import { type AddInCall, evaluateBook, openWorkbook, readTests } from "../../../src/workbook/index";
import { sheetData, testSheet, testWorkbook } from "../graph/test-workbook";

const addIn = addInRegistry();

function testsOf(bytes: Uint8Array) {
  const { book } = openWorkbook(bytes);
  const calls: AddInCall[] = [];
  return readTests(book, evaluateBook(book, { addIn, calls }), addIn, calls);
}

const sampleTests = (file: string) =>
  testsOf(new Uint8Array(readFileSync(new URL(`../../../sample-workbooks/${file}.xlsx`, import.meta.url))));

it("the final test is one house with one test of both directions, judged by one limit", () => {
  const found = sampleTests("final-test");
  expect(found.houses.length).toBe(1);
  const [house] = found.houses;
  // The fourth run is an empty form for a second pressurization.
  expect(house?.runs.map(({ direction }) => direction).sort()).toEqual([
    "depressurization",
    "depressurization",
    "pressurization",
    "pressurization",
  ]);
  const [test, ...more] = house?.tests ?? [];
  expect(more).toEqual([]);
  expect(test?.runs.map(({ sheetName }) => sheetName)).toEqual([
    "Depressurization",
    "Depressurization 2",
    "Pressurization",
  ]);
  expect(test?.limits.map(({ pressure, stated }) => ({ pressure, stated }))).toEqual([
    { pressure: 50, stated: { quantity: "n50", value: 0.6, unit: "1/h" } },
  ]);
});

it("a computed run leads to the cells that it was entered in, with the same readings", () => {
  const found = sampleTests("final-test");
  for (const run of found.computed) {
    const entered = found.findEntered(run);
    expect(entered?.direction).toBe(run.direction);
    expect(entered?.readings.filter(({ counts }) => counts).length).toBe(run.curve.used.length);
    expect(entered?.readings.filter(({ counts }) => !counts).length).toBe(run.curve.excluded.length);
  }
});

it("two stages of work on one house are two tests, one with a limit for the flow itself", () => {
  const { tests } = sampleTests("mid-construction");
  expect(tests.map(({ runs, limits }) => [runs.length, limits.map(({ stated }) => stated)])).toEqual([
    [1, []],
    [1, [undefined]],
  ]);
});

it("runs of houses that share no size are houses by themselves", () => {
  const { houses, pairs } = sampleTests("multi-unit");
  expect(pairs).toEqual([]);
  expect(houses.every(({ runs }) => runs.length === 1)).toBe(true);
});

it("a fit without a whole test is a house by itself, of no direction; a call without a result says why", () => {
  const fit = sheetData({
    A2: 60,
    B2: 200,
    A3: 40,
    B3: 152,
    A4: 20,
    B4: 98,
    D2: { f: "_xldudf_STILLAIR_LEAKAGEFIT(A2:A4,B2:B4)", ref: "D2:G12" },
  });
  const waiting = testSheet({ direction: "depressurization", count: 1 });
  const { houses, refused, entered } = testsOf(testWorkbook({ Fit: fit, Waiting: waiting }));
  expect(houses.map(({ runs, tests }) => [runs.length, tests.length])).toEqual([
    [1, 0],
    [0, 1],
  ]);
  expect(houses[1]?.tests[0]?.runs.map(({ cell, direction }) => [cell, direction])).toEqual([["Fit!D2", undefined]]);
  expect(entered.map(({ readings }) => readings.length)).toEqual([1]);
  expect(refused.map(({ cell }) => cell)).toEqual(["Waiting!J2"]);
  expect(refused[0]?.reason).toMatch(/reading/);
});
