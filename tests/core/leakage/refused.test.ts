import { describe } from "vitest";
import {
  fitLeakage,
  leakageFlow,
  referenceCoefficient,
  studentT,
  techniques,
  type LeakageReading,
  type Technique,
} from "../../../src/core";
import { readings, uncertainReadings, type ReadingErrors } from "../../authorities/support/leakage";
import { refuses, takes } from "../refusals";

const pressures = [60, 45, 30, 15];
const flows = [600, 500, 390, 250];
const known: ReadingErrors = { pressure: [1, 1, 1, 1], flow: [6, 5, 4, 3] };
const fit =
  (technique: Technique, errors: ReadingErrors = known, q: readonly number[] = flows) =>
  () =>
    fitLeakage(uncertainReadings(pressures, q, errors), technique).exponent;

describe.each(techniques)("every technique refuses: %s", (technique) => {
  const through = (list: readonly LeakageReading[]) => () => fitLeakage(list, technique);
  refuses("missing", [
    ["pressures: tooFew", through(readings([60, 30], [600, 390])), { least: 3, of: "readings", count: 2 }],
    ["pressures: tooFew", through([]), { least: 3, of: "readings", count: 0 }],
  ]);
  refuses("invalid", [
    ["pressures, row 2: aboveZero", through(readings([60, 0, 30], flows)), { got: 0 }],
    ["pressures, row 3: aboveZero", through(readings([60, 45, Infinity], flows)), { got: Infinity }],
    ["flows, row 3: aboveZero", through(readings([60, 45, 30], [600, 500, -390])), { got: -390 }],
    ["pressures: pressuresAlike", through(readings([50, 50, 50], flows))],
  ]);
});

refuses("missing", [
  [
    "flow uncertainty: techniqueNeeds",
    fit("weighted", { pressure: [1, 1, 1, 1] }),
    { technique: "weighted", quantity: "flow" },
  ],
  [
    "pressure uncertainty: techniqueNeeds",
    fit("weighted organic correlation", { flow: [6, 5, 4, 3] }),
    { technique: "weighted organic correlation", quantity: "pressure" },
  ],
  [
    "flow uncertainty: techniqueNeeds",
    fit("weighted organic correlation", { pressure: [1, 1, 1, 1] }),
    { technique: "weighted organic correlation", quantity: "flow" },
  ],
  [
    "pressure uncertainty: techniqueNeeds",
    fit("errors in both", {}),
    { technique: "errors in both", quantity: "pressure" },
  ],
  [
    "flow uncertainty: techniqueNeeds",
    fit("errors in both", { pressure: [1, 1, 1, 1] }),
    { technique: "errors in both", quantity: "flow" },
  ],
  ["flow uncertainty: noUncertaintyInRow", fit("weighted", { flow: [6, 5] }), { row: 3 }],
  [
    "pressure uncertainty: noUncertaintyInRow",
    fit("errors in both", { pressure: [1], flow: [6, 5, 4, 3] }),
    { row: 2 },
  ],
  ["flow uncertainty: noUncertaintyInRow", fit("weighted with expected exponent", { flow: [6, 5, 4] }), { row: 4 }],
]);

refuses("invalid", [
  ["flow uncertainty, row 2: zeroOrMore", fit("weighted", { flow: [6, -5, 4, 3] })],
  [
    "pressure uncertainty, row 4: zeroOrMore",
    fit("errors in both", { pressure: [1, 1, 1, Infinity], flow: [6, 5, 4, 3] }),
  ],
  [
    "flow uncertainty: tooLarge",
    fit("errors in both", { pressure: [1, 1, 1, 1], flow: [0, 0, 0, 0] }, [100, 100, 100, 100]),
  ],
  ["flow uncertainty, row 1: aboveZero", fit("weighted", { flow: [0, 5, 4, 3] })],
  ["pressure uncertainty, row 3: aboveZero", fit("weighted organic correlation", { ...known, pressure: [1, 1, 0, 1] })],
  ["flow uncertainty, row 4: aboveZero", fit("weighted organic correlation", { ...known, flow: [6, 5, 4, 0] })],
  [
    "flow uncertainty, row 2: bothUncertaintiesZero",
    fit("errors in both", { pressure: [1, 0, 1, 1], flow: [6, 0, 4, 3] }),
  ],
  [
    "flow uncertainty, row 3: bothUncertaintiesZero",
    fit("weighted with expected exponent", { pressure: [1, 1, 0, 1], flow: [6, 5, 0, 3] }),
  ],
  ["flow uncertainty, row 3: correlation", fit("errors in both", { ...known, correlation: [0, 0.5, 1, 0] })],
  ["flow uncertainty, row 1: correlation", fit("errors in both", { ...known, correlation: [-1, 0, 0, 0] })],
  ["flows: flowsAlike", fit("organic correlation", known, [500, 500, 500, 500])],
  ["flows: flowNotRising", fit("organic correlation", known, [250, 390, 500, 600])],
  ["flows: flowNotRising", () => fitLeakage(readings([10, 20, 40], [100, 200, 100]), "organic correlation")],
  [
    "pressures: pressuresAlike",
    () => fitLeakage(readings([50, 50.000001, 50.000002], [1, 1000, 1_000_000]), "ordinary"),
  ],
  [
    "pressures: pressuresAlike",
    () => fitLeakage(readings([50, 50.000001, 50.000002], [1_000_000, 1000, 1]), "ordinary"),
  ],
  // The whole weight lies on two readings at one pressure.
  [
    "pressures: pressuresAlike",
    () => fitLeakage(uncertainReadings([50, 50, 20], [400, 401, 200], { flow: [1e-170, 1e-170, 1e170] }), "weighted"),
  ],
  ["exponent: aboveZeroUpTo", () => leakageFlow(10, -0.65, 50), { highest: 1.5, got: -0.65 }],
  ["pressure: aboveZero", () => leakageFlow(10, 0.65, -50), { got: -50 }],
  [
    "exponent: aboveZeroUpTo",
    () => referenceCoefficient(10, 2, { factor: 1, pressureFactor: 1 }),
    { highest: 1.5, got: 2 },
  ],
  ["coefficient: aboveZero", () => referenceCoefficient(-10, 0.65, { factor: 1, pressureFactor: 1 }), { got: -10 }],
  ["confidence: confidence", () => studentT(95, 5)],
]);

takes([
  ["pressures without uncertainty", fit("errors in both", { ...known, pressure: [0, 0, 0, 0] })],
  ["flows without uncertainty", fit("errors in both", { ...known, flow: [0, 0, 0, 0] })],
  ["no uncertainty stated where an exponent is expected", fit("weighted with expected exponent", {})],
  [
    "flows without uncertainty where an exponent is expected",
    fit("weighted with expected exponent", { flow: [0, 0, 0, 0] }),
  ],
  ["pressures without uncertainty beside weighted flows", fit("weighted", { ...known, pressure: [0, 0, 0, 0] })],
]);
