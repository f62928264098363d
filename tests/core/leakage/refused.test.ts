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
    ["pressures: 3 readings needed for a line and its uncertainty, 2 so far", through(readings([60, 30], [600, 390]))],
    ["pressures: 3 readings needed for a line and its uncertainty, 0 so far", through([])],
  ]);
  refuses("invalid", [
    ["pressures, row 2: must be above 0 (got 0)", through(readings([60, 0, 30], flows))],
    ["pressures, row 3: must be above 0 (got Infinity)", through(readings([60, 45, Infinity], flows))],
    ["flows, row 3: must be above 0 (got -390)", through(readings([60, 45, 30], [600, 500, -390]))],
    ["pressures: the pressures do not vary: a line needs different pressures", through(readings([50, 50, 50], flows))],
  ]);
});

const absent = (technique: string, quantity: string) =>
  `${quantity}_uncertainty: the technique "${technique}" needs the standard uncertainty of every ${quantity}`;
refuses("missing", [
  [absent("weighted", "flow"), fit("weighted", { pressure: [1, 1, 1, 1] })],
  [absent("weighted organic correlation", "pressure"), fit("weighted organic correlation", { flow: [6, 5, 4, 3] })],
  [absent("weighted organic correlation", "flow"), fit("weighted organic correlation", { pressure: [1, 1, 1, 1] })],
  [absent("errors in both", "pressure"), fit("errors in both", {})],
  [absent("errors in both", "flow"), fit("errors in both", { pressure: [1, 1, 1, 1] })],
  ["flow_uncertainty: row 3 has none", fit("weighted", { flow: [6, 5] })],
  ["pressure_uncertainty: row 2 has none", fit("errors in both", { pressure: [1], flow: [6, 5, 4, 3] })],
  ["flow_uncertainty: row 4 has none", fit("weighted with expected exponent", { flow: [6, 5, 4] })],
]);

const weight = (quantity: string, row: number) =>
  `${quantity}_uncertainty, row ${row}: must be above 0: it is the weight of the reading`;
refuses("invalid", [
  ["flow_uncertainty, row 2: must be 0 or more, standard", fit("weighted", { flow: [6, -5, 4, 3] })],
  [
    "pressure_uncertainty, row 4: must be 0 or more, standard",
    fit("errors in both", { pressure: [1, 1, 1, Infinity], flow: [6, 5, 4, 3] }),
  ],
  [
    "flow_uncertainty: too small or too large to weigh the readings by",
    fit("errors in both", { pressure: [1, 1, 1, 1], flow: [0, 0, 0, 0] }, [100, 100, 100, 100]),
  ],
  [weight("flow", 1), fit("weighted", { flow: [0, 5, 4, 3] })],
  [weight("pressure", 3), fit("weighted organic correlation", { ...known, pressure: [1, 1, 0, 1] })],
  [weight("flow", 4), fit("weighted organic correlation", { ...known, flow: [6, 5, 4, 0] })],
  [
    "flow_uncertainty, row 2: the uncertainties of a pressure and its flow cannot both be 0",
    fit("errors in both", { pressure: [1, 0, 1, 1], flow: [6, 0, 4, 3] }),
  ],
  [
    "flow_uncertainty, row 3: the uncertainties of a pressure and its flow cannot both be 0",
    fit("weighted with expected exponent", { pressure: [1, 1, 0, 1], flow: [6, 5, 0, 3] }),
  ],
  [
    "flow_uncertainty, row 3: a correlation must lie between −1 and 1",
    fit("errors in both", { ...known, correlation: [0, 0.5, 1, 0] }),
  ],
  [
    "flow_uncertainty, row 1: a correlation must lie between −1 and 1",
    fit("errors in both", { ...known, correlation: [-1, 0, 0, 0] }),
  ],
  [
    "flows: the flows do not vary: organic correlation has no line for them",
    fit("organic correlation", known, [500, 500, 500, 500]),
  ],
  [
    "flows: the flow does not rise with pressure: organic correlation has no line for that",
    fit("organic correlation", known, [250, 390, 500, 600]),
  ],
  [
    "flows: the flow does not rise with pressure: organic correlation has no line for that",
    () => fitLeakage(readings([10, 20, 40], [100, 200, 100]), "organic correlation"),
  ],
  [
    "pressures: the pressures lie so near together that no coefficient follows",
    () => fitLeakage(readings([50, 50.000001, 50.000002], [1, 1000, 1_000_000]), "ordinary"),
  ],
  [
    "pressures: the pressures lie so near together that no coefficient follows",
    () => fitLeakage(readings([50, 50.000001, 50.000002], [1_000_000, 1000, 1]), "ordinary"),
  ],
  // The whole weight lies on two readings at one pressure.
  [
    "pressures: under these weights the pressures do not vary: a line needs different pressures",
    () => fitLeakage(uncertainReadings([50, 50, 20], [400, 401, 200], { flow: [1e-170, 1e-170, 1e170] }), "weighted"),
  ],
  ["exponent: above 0 and not more than 1.5, usually 0.5 to 1 (got -0.65)", () => leakageFlow(10, -0.65, 50)],
  ["pressure: must be above 0 (got -50)", () => leakageFlow(10, 0.65, -50)],
  [
    "exponent: above 0 and not more than 1.5, usually 0.5 to 1 (got 2)",
    () => referenceCoefficient(10, 2, { factor: 1, pressureFactor: 1 }),
  ],
  ["coefficient: must be above 0 (got -10)", () => referenceCoefficient(-10, 0.65, { factor: 1, pressureFactor: 1 })],
  ["confidence: a fraction from 0.5 to below 1, 0.95 for 95 %", () => studentT(95, 5)],
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
