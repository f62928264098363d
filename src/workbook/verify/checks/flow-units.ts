import { computeCalibrationRatios } from "../stated-facts";
import type { Finding } from "../finding";
import type { DirectionPair } from "../../book/tests/direction-pairs";
import type { Check, Review } from "../review";
import { findUnitBehind } from "../units";
import { type EnteredRun, readResult, sumFlow } from "../../book/tests/entered-runs";
import { formatFigure } from "../../formatting";

const why =
  "The unit of flow scales the result directly: cfm taken for m³/h makes a house look 1.7 times as tight as it is.";

/** Flows not in the unit the sheet states, judged by the device's calibration, by the other direction, or by what is plausible for a house. */
export const checkFlowUnits: Check = (review) => [
  ...review.runs.flatMap((run) => compareWithCalibration(review, run)),
  ...review.tests.pairs.flatMap((pair) => compareWithOther(review, pair)),
  ...review.runs.flatMap((run) => findImplausible(review, run)),
];

/** Typed flows next to fan pressures and the device's c and m: q = c·f^m gives what they should be. */
function compareWithCalibration({ view }: Review, run: EnteredRun): Finding[] {
  const readings = run.readings.filter(({ flows }) => flows.length === 1 && flows[0] && view.isTyped(flows[0]));
  const flows = readings.flatMap((reading) => sumFlow(view, reading) ?? []);
  if (flows.length < 3 || flows.length !== readings.length) return [];
  const found = computeCalibrationRatios(view, readings, flows).find((ratio) => findUnitBehind(ratio, 0.02));
  const unit = found === undefined ? undefined : findUnitBehind(found, 0.02);
  if (found === undefined || !unit) return [];
  return [
    {
      kind: "flow unit",
      severity: "error",
      place: view.formatArea(run.flows),
      what: `The typed ${run.direction} flows are ${formatFigure(found)} times what the device's calibration gives for their fan pressures: ${unit.words}.`,
      why,
      todo: "Convert the flows, or set the sheet's unit to theirs.",
    },
  ];
}

/** The directions of one house differ by a few per cent, not by the ratio of two units. */
function compareWithOther(review: Review, [one, other]: DirectionPair): Finding[] {
  const { view } = review;
  const [a, b] = [one, other].map((run) => readResult(review, run, "q50"));
  if (a === undefined || b === undefined) return [];
  const [small, large] = a < b ? [one, other] : [other, one];
  const unit = findUnitBehind(Math.min(a, b) / Math.max(a, b), 0.12);
  if (!unit) return [];
  return [
    {
      kind: "flow unit",
      severity: "warning",
      place: view.formatArea(small.flows),
      what: `The flow at 50 Pa of ${small.direction} is ${formatFigure(Math.min(a, b))}, of ${large.direction} ${formatFigure(Math.max(a, b))}: a ratio of ${formatFigure(Math.max(a, b) / Math.min(a, b), 3)}, as with ${unit.words}.`,
      why,
      todo: "Compare the units of both flow columns with the device's display and certificate.",
    },
  ];
}

function findImplausible(review: Review, run: EnteredRun): Finding[] {
  const { view } = review;
  const rate = readResult(review, run, "n50");
  if (rate === undefined || (rate >= 0.05 && rate <= 50)) return [];
  return [
    {
      kind: "flow unit",
      severity: "warning",
      place: view.formatArea(run.flows),
      what: `The air change rate at 50 Pa in ${run.direction} is ${formatFigure(rate)} 1/h, which is implausible for a house.`,
      why: "Such a figure comes from the wrong unit of flow or volume.",
      todo: "Check the units of the flow column and the volume.",
    },
  ];
}
