import { exponentWithLimits, fitLeakage, flowWithLimits } from "../../../src/core/index";
import type { GraphData, GraphLine } from "../../../src/workbook/graph/data";

/** Readings of an invented house along q = C·Δp^n, each off by its own fraction. */
function readingsAlong(coefficient: number, exponent: number, pressures: readonly number[], off: readonly number[]) {
  return pressures.map((pressure, index) => ({
    pressure,
    flow: coefficient * pressure ** exponent * (1 + (off[index % off.length] ?? 0)),
    row: index + 1,
  }));
}

const scatter = [0.012, -0.009, 0.004, -0.013, 0.008, -0.002, 0.006, -0.006];

interface LineOptions {
  readonly name?: string;
  readonly look?: GraphLine["look"];
  readonly coefficient?: number;
  readonly exponent?: number;
  readonly pressures?: readonly number[];
  readonly off?: readonly number[];
  readonly excluded?: GraphLine["excluded"];
}

/** A line with its fit by the method itself. */
export function lineOf({
  name,
  look = "depressurization",
  coefficient = 13,
  exponent = 0.67,
  pressures = [62, 55, 48, 42, 35, 28, 21, 14],
  off = scatter,
  excluded = [],
}: LineOptions): GraphLine {
  const used = readingsAlong(coefficient, exponent, pressures, off);
  const fit = fitLeakage(used, "ordinary");
  const flowAt = (pressure: number) => flowWithLimits(fit, pressure, 0.95);
  return {
    name: name ?? look,
    look,
    used,
    excluded,
    exponent: exponentWithLimits(fit, 0.95),
    coefficient: fit.coefficient,
    determination: fit.determination,
    q50: flowAt(50),
    flowAt,
  };
}

function graphOf(lines: readonly GraphLine[], more: Partial<GraphData> = {}): GraphData {
  return {
    title: "Air leakage graph",
    subtitle: "Pebble Cottage, invented",
    flowUnit: "m³/h",
    lines,
    targets: [],
    confidence: 0.95,
    note: "",
    ...more,
  };
}

const both = (more: LineOptions = {}) => [
  lineOf({}),
  lineOf({ look: "pressurization", coefficient: 14, exponent: 0.65, ...more }),
];
const long =
  "depressurization of the rear extension with the winter garden and the cellar stairs, second run after sealing";

/** Graphs that are easy and graphs that are hard to draw. */
export const cases: Readonly<Record<string, GraphData>> = {
  both: graphOf(both(), {
    targets: [{ pressure: 50, flow: 217, words: "n50 0.6 1/h" }],
    note: "q50 and the limit are at reference conditions (20 °C, 101 325 Pa, dry air), the lines at those of the test.",
  }),
  excluded: graphOf(
    [
      lineOf({ excluded: [{ pressure: 30, flow: 180 }] }),
      lineOf({
        look: "pressurization",
        coefficient: 14,
        excluded: [
          { pressure: 47, flow: 150 },
          { pressure: 12, flow: 82 },
        ],
      }),
    ],
    { targets: [{ pressure: 50, flow: 180, words: "n50 0.6 1/h" }] },
  ),
  "one direction, three readings": graphOf([
    lineOf({ look: "pressurization", pressures: [60, 40, 20], off: [0.01, -0.02, 0.01] }),
  ]),
  "almost the same lines": graphOf(both({ coefficient: 13.02, exponent: 0.67 }), {
    targets: [{ pressure: 50, flow: 181, words: "n50 0.5 1/h" }],
  }),
  "tiny flows": graphOf([lineOf({ coefficient: 0.0021, exponent: 0.9 })], {
    flowUnit: "L/s",
    targets: [{ pressure: 50, flow: 0.09, words: "q50/A_E 0.01 L/(s·m²)" }],
  }),
  "huge flows, US units": graphOf(
    both({ coefficient: 124_000 }).map((line, index) => (index === 0 ? lineOf({ coefficient: 118_000 }) : line)),
    {
      flowUnit: "cfm",
      targets: [{ pressure: 75, flow: 2_400_000, words: "q75/A_E 0.25 cfm/ft²" }],
    },
  ),
  "long names": graphOf([lineOf({ name: long }), lineOf({ look: "pressurization", name: long.replace("de", "") })], {
    title: `Air leakage graph of ${long}`,
    subtitle: `Pebble Cottage & <Annexe>, "invented"; ${long}`,
    targets: [
      {
        pressure: 50,
        flow: 240,
        words: "specific leakage rate of the building envelope by the invented programme of Tidewater",
      },
    ],
    note: `${long}. `.repeat(8),
  }),
  "limit far above": graphOf(both(), { targets: [{ pressure: 50, flow: 5200, words: "n50 15 1/h" }] }),
  "limit far below": graphOf(both(), { targets: [{ pressure: 50, flow: 9, words: "n50 0.03 1/h" }] }),
  "no reading near 50 Pa": graphOf([lineOf({ pressures: [31, 27, 23, 19, 15, 12] })], {
    targets: [{ pressure: 50, flow: 200, words: "n50 0.6 1/h" }],
  }),
  "six runs, two limits": graphOf(
    [1, 1.3, 1.7, 0.8, 1.02, 1.31].map((factor, index) =>
      lineOf({
        coefficient: 13 * factor,
        look: index % 2 === 0 ? "depressurization" : "pressurization",
        name: `${index % 2 === 0 ? "depressurization" : "pressurization"}, run ${1 + Math.floor(index / 2)}`,
      }),
    ),
    {
      targets: [
        { pressure: 50, flow: 217, words: "n50 0.6 1/h" },
        { pressure: 50, flow: 225, words: "qE50 0.6 m³/(h·m²)" },
      ],
    },
  ),
  "nearly one pressure": graphOf([lineOf({ pressures: [50.5, 50.2, 49.8, 49.5], off: [0.01, -0.01, 0.01, -0.01] })]),
};
