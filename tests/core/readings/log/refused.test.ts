import { describe } from "vitest";
import { logStations } from "../../../../src/core";
import { refuses, takes } from "../../refusals";
import { log, at, about } from "./logs";

describe("what a log must be", () => {
  const quiet = log(about(-50, 60));
  refuses("missing", [
    ["log: two rows or more are needed, 0 so far", () => logStations(log([]))],
    ["log: two rows or more are needed, 1 so far", () => logStations(log([1]))],
  ]);
  refuses("invalid", [
    [
      "log, row 3: the time 1 does not rise; past midnight the date is needed",
      () => logStations(at([0, 1, 1], [1, 1, 1])),
    ],
    [
      "log, row 9: the time 0.5 does not rise; past midnight the date is needed",
      () => logStations({ ...at([0, 1, 0.5], [1, 1, 1]), rows: Int32Array.from([2, 4, 9]) }),
    ],
    [
      "log, row 2: the time NaN does not rise; past midnight the date is needed",
      () => logStations(at([0, NaN, 2], [1, 1, 1])),
    ],
    [
      'settings: rows 0.005 apart could be seconds or days: give the "time unit"',
      () => logStations(at([0, 0.005], [1, 1])),
    ],
    [
      'settings: rows 0.05 apart could be seconds or days: give the "time unit"',
      () => logStations(at([0, 0.05], [1, 1])),
    ],
    ["tolerance: must be above 0 (got 0)", () => logStations(quiet, { tolerance: 0 })],
    ["shortest station: must be above 0 (got -1)", () => logStations(quiet, { shortest: -1 })],
    ["zero flow below: must be 0 or more", () => logStations(quiet, { zeroFlowBelow: -1 })],
    [
      "coefficients: must be above 0 (got 0)",
      () => logStations(quiet, { calibration: { coefficient: 0, exponent: 0.5, lowest: 20 } }),
    ],
    [
      "highest: 10 Pa lies below the lowest, 20 Pa",
      () => logStations(quiet, { calibration: { coefficient: 5, exponent: 0.5, lowest: 20, highest: 10 } }),
    ],
  ]);
  takes([
    [
      "a calibration with its highest pressure alone",
      () => logStations(quiet, { calibration: { coefficient: 5, exponent: 0.5, highest: 300 } }),
    ],
    [
      "a calibration with its lowest pressure alone",
      () => logStations(quiet, { calibration: { coefficient: 5, exponent: 0.5, lowest: 20 } }),
    ],
    ["a zero flow level of 0", () => logStations(quiet, { zeroFlowBelow: 0 })],
    [
      "rows a twentieth of a second apart, said to be seconds",
      () => logStations(at([0, 0.05], [1, 1]), { timeUnit: "seconds" }).length,
    ],
  ]);
});
