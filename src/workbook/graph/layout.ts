import type { GraphData, GraphLine, GraphTarget } from "./data";
import { axisEnds, labelledTicks, logScale, type Scale, tickText } from "./scale";
import { textWidth } from "./text";

export const width = 760;
export const tickSize = 11.5;

/** The pressure at which houses are compared. */
export const comparedAt = 50;

/** Axes, their numbers, and where the frame of the graph stands. */
export interface Layout {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly pressure: Scale;
  readonly flow: Scale;
  readonly pressureTicks: readonly number[];
  readonly flowTicks: readonly number[];
}

const rightMargin = 176;
const plotHeight = 396;
const numberGap = 12;

/** A limit that is farther from everything else than this would press the readings together; it is told at the frame's edge. */
const farthestTarget = 4;

export function layoutOf({ lines, targets }: GraphData, top: number): Layout {
  const bottom = top + plotHeight;
  const right = width - rightMargin;
  const pressures = axisEnds([
    comparedAt,
    ...targets.map(({ pressure }) => pressure),
    ...lines.flatMap((line) => readingsOf(line).map(({ pressure }) => pressure)),
  ]);
  const own = lines.flatMap((line) => {
    const { from, to } = drawnRange(line);
    return [...readingsOf(line).map(({ flow }) => flow), line.flowAt(from).value, line.flowAt(to).value];
  });
  const [least, most] = [Math.min(...own), Math.max(...own)];
  const near = targets
    .map(({ flow }) => flow)
    .filter((flow) => flow < most * farthestTarget && flow > least / farthestTarget);
  const flows = axisEnds([...own, ...near]);
  const flow = logScale(flows.low, flows.high, bottom, top);
  const flowTicks = labelledTicks(flow, () => tickSize + numberGap);
  const widest = Math.max(...flowTicks.map((tick) => textWidth(tickText(tick), tickSize)));
  const left = Math.ceil(40 + widest);
  const pressure = logScale(pressures.low, pressures.high, left, right);
  const pressureTicks = labelledTicks(pressure, (tick) => textWidth(tickText(tick), tickSize) + numberGap);
  return { left, right, top, bottom, pressure, flow, pressureTicks, flowTicks };
}

export function readingsOf({ used, excluded }: GraphLine) {
  return [...used, ...excluded];
}

/** The pressures between which the readings lie, and those between which the line is drawn: on to 50 Pa where no reading reaches it. */
export function drawnRange(line: GraphLine): { least: number; most: number; from: number; to: number } {
  const pressures = line.used.map(({ pressure }) => pressure);
  const [least, most] = [Math.min(...pressures), Math.max(...pressures)];
  return { least, most, from: Math.min(least, comparedAt), to: Math.max(most, comparedAt) };
}

export type Beyond = "above" | "below" | undefined;

/** Whether a limit lies outside the paper. */
export function beyondPaper({ flow }: GraphTarget, { flow: scale }: Layout): Beyond {
  return flow > scale.high ? "above" : flow < scale.low ? "below" : undefined;
}
