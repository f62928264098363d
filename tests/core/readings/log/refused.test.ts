import { describe } from "vitest";
import { logStations } from "../../../../src/core";
import { refuses, takes } from "../../refusals";
import { log, at, about } from "./logs";

describe("what a log must be", () => {
  const quiet = log(about(-50, 60));
  refuses("missing", [
    ["log: tooFew", () => logStations(log([])), { least: 2, of: "rows", count: 0 }],
    ["log: tooFew", () => logStations(log([1])), { least: 2, of: "rows", count: 1 }],
  ]);
  refuses("invalid", [
    ["log, row 3: timeNotRising", () => logStations(at([0, 1, 1], [1, 1, 1])), { time: 1 }],
    [
      "log, row 9: timeNotRising",
      () => logStations({ ...at([0, 1, 0.5], [1, 1, 1]), rows: Int32Array.from([2, 4, 9]) }),
      { time: 0.5 },
    ],
    ["log, row 2: timeNotRising", () => logStations(at([0, NaN, 2], [1, 1, 1])), { time: NaN }],
    ["time unit: timeUnitUnclear", () => logStations(at([0, 0.005], [1, 1])), { interval: 0.005 }],
    ["time unit: timeUnitUnclear", () => logStations(at([0, 0.05], [1, 1])), { interval: 0.05 }],
    ["tolerance: aboveZero", () => logStations(quiet, { tolerance: 0 }), { got: 0 }],
    ["shortest station: aboveZero", () => logStations(quiet, { shortest: -1 }), { got: -1 }],
    ["zero flow below: zeroOrMore", () => logStations(quiet, { zeroFlowBelow: -1 })],
    [
      "coefficients: aboveZero",
      () => logStations(quiet, { calibration: { coefficient: 0, exponent: 0.5, lowest: 20 } }),
      { got: 0 },
    ],
    [
      "highest: highestNotAbove",
      () => logStations(quiet, { calibration: { coefficient: 5, exponent: 0.5, lowest: 20, highest: 10 } }),
      { lowest: 20, got: 10 },
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
