import { expect, test } from "vitest";
import { leakageFit, testResult } from "../../src/functions";
import { column } from "./errors";

const pressures = [60, 50, 40, 30, 20];
const flows = column(272, 240, 208, 173, 133);
const settings = [
  ["flow basis", "actual at the fan"],
  ["indoor temperature", 21],
  ["outdoor temperature", 5],
];

test.each([
  ["LEAKAGEFIT", leakageFit(column(...pressures), flows) as string[][]],
  [
    "TESTRESULT",
    testResult("pressurization", column(...pressures), flows, column(0), column(0), settings) as string[][],
  ],
])("the symbols of %s differ by more than letter case, which MATCH and XLOOKUP ignore", (_, table) => {
  const symbols = table.map((row) => row[1]!.toLowerCase());
  expect(new Set(symbols).size).toBe(symbols.length);
});
