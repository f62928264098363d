import type { GraphData, GraphLine, GraphTarget } from "./data";
import { colours } from "./line-style";
import { writeElement } from "./svg";
import { drawText, measureText } from "./text";

/** The grid: fine lines at each part of a decade, stronger ones at numbers, the frame, numbers and titles. */
export function drawAxes(layout: Layout, flowUnit: string): string {
  const { left, right, top, bottom, pressure, flow, pressureTicks, flowTicks } = layout;
  const parts: string[] = [];
  const drawVertical = (x: number, stroke: string) =>
    writeElement("line", { x1: x, y1: top, x2: x, y2: bottom, stroke, "stroke-width": 0.8 });
  const drawHorizontal = (y: number, stroke: string) =>
    writeElement("line", { x1: left, y1: y, x2: right, y2: y, stroke, "stroke-width": 0.8 });
  for (const line of listPaperLines(pressure)) parts.push(drawVertical(pressure.place(line), colours.hair));
  for (const line of listPaperLines(flow)) parts.push(drawHorizontal(flow.place(line), colours.hair));
  for (const tick of pressureTicks) parts.push(drawVertical(pressure.place(tick), colours.rule));
  for (const tick of flowTicks) parts.push(drawHorizontal(flow.place(tick), colours.rule));
  parts.push(
    writeElement("rect", {
      x: left,
      y: top,
      width: right - left,
      height: bottom - top,
      fill: "none",
      stroke: colours.grey,
      "stroke-width": 1,
    }),
  );
  for (const tick of pressureTicks) {
    const bold = tick === comparedAt;
    parts.push(
      drawText(pressure.place(tick), bottom + 17, formatTick(tick), { size: tickSize, anchor: "middle", bold }),
    );
  }
  for (const tick of flowTicks)
    parts.push(
      drawText(left - 7, flow.place(tick) + 0.36 * tickSize, formatTick(tick), { size: tickSize, anchor: "end" }),
    );
  const title = { size: 12, colour: colours.grey, anchor: "middle" } as const;
  parts.push(drawText((left + right) / 2, bottom + 37, "induced pressure difference, Pa", title));
  parts.push(drawText(16, (top + bottom) / 2, `flow through the envelope, ${flowUnit}`, { ...title, turned: true }));
  const x = pressure.place(comparedAt);
  parts.push(
    writeElement("line", {
      x1: x,
      y1: top - 6,
      x2: x,
      y2: bottom,
      stroke: colours.ink,
      "stroke-width": 1.2,
      "stroke-dasharray": "1 3",
    }),
    drawText(x, top - 10, "50 Pa", { size: 12, bold: true, anchor: "middle" }),
  );
  return writeElement("g", { "aria-hidden": "true" }, parts.join(""));
}

/** A logarithmic axis: maps a value to its position. */
interface Scale {
  readonly low: number;
  readonly high: number;
  place(value: number): number;
}

/** An axis from `low` at `start` to `high` at `end`; positions may decrease. */
export function createLogScale(low: number, high: number, start: number, end: number): Scale {
  const span = Math.log(high / low);
  return { low, high, place: (value) => start + ((end - start) * Math.log(value / low)) / span };
}

/** Where an axis may start and end within a decade. */
const ends = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10];

/** Padding between the outermost values and the frame. */
const air = 1.07;

/** Round limits of an axis covering all values, which are positive. */
export function chooseAxisEnds(values: readonly number[]): { low: number; high: number } {
  const [least, most] = [Math.min(...values) / air, Math.max(...values) * air];
  const findDecade = (value: number) => 10 ** Math.floor(Math.log10(value) + 1e-12);
  const below = ends.filter((end) => end * findDecade(least) <= least * (1 + 1e-9)).at(-1) ?? 1;
  const above = ends.find((end) => end * findDecade(most) >= most * (1 - 1e-9)) ?? 10;
  return { low: below * findDecade(least), high: above * findDecade(most) };
}

/** Ways to divide a decade, from coarse to fine. */
const divisions = [
  [1],
  [1, 3],
  [1, 2, 5],
  [1, 2, 3, 5, 7],
  [1, 2, 3, 4, 5, 6, 8],
  [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9],
  [1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.4, 2.6, 2.8, 3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5],
];

function listTicks(division: readonly number[], { low, high }: Scale): number[] {
  const ticks: number[] = [];
  for (let power = Math.floor(Math.log10(low)) - 1; power <= Math.log10(high) + 1; power++) {
    for (const part of division) {
      const tick = Number(`${part}e${power}`);
      if (tick >= low * (1 - 1e-9) && tick <= high * (1 + 1e-9)) ticks.push(tick);
    }
  }
  return ticks;
}

/** The finest ticks whose numbers do not collide; `room` is the space for one number and its gap. */
export function chooseLabelledTicks(scale: Scale, room: (tick: number) => number): number[] {
  const haveRoom = (ticks: readonly number[]) =>
    ticks.every((tick, index) => {
      const before = ticks[index - 1];
      if (before === undefined) return true;
      return Math.abs(scale.place(tick) - scale.place(before)) >= (room(tick) + room(before)) / 2;
    });
  const fine = divisions.map((division) => listTicks(division, scale)).filter(haveRoom);
  return fine.at(-1) ?? listTicks([1], scale).slice(0, 1);
}

/** Every integer multiple within a decade, for the fine grid lines. */
function listPaperLines(scale: Scale): number[] {
  return listTicks([1, 2, 3, 4, 5, 6, 7, 8, 9], scale);
}

/** Digits in groups of three, separated by narrow spaces if there are five or more. */
function groupDigits(digits: string): string {
  const [whole = "", rest] = digits.split(".");
  const groups = whole.replace("-", "").length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, "\u2009") : whole;
  return rest === undefined ? groups : `${groups}.${rest}`;
}

/** A number with a true minus sign, to the given significant digits but never losing integer digits; very large and very small ones as powers of ten. */
export function formatSignificant(value: number, digits: number): string {
  if (value === 0) return "0";
  const power = Math.floor(Math.log10(Math.abs(value)));
  if (power >= 9 || power < -4) {
    const mantissa = value / 10 ** power;
    return `${mantissa.toFixed(digits - 1)}·10^${power}`.replaceAll("-", "−");
  }
  return groupDigits(value.toFixed(Math.max(0, digits - 1 - power))).replace("-", "−");
}

/** A number with fixed decimals and a true minus sign. */
export function formatFixed(value: number, decimals: number): string {
  return value.toFixed(decimals).replace("-", "−");
}

/** The number at a tick, without trailing zeros or binary noise. */
export function formatTick(value: number): string {
  const power = Math.floor(Math.log10(value));
  if (power >= 9 || power < -4) return formatSignificant(value, 1);
  return groupDigits(String(Number(value.toPrecision(6))));
}

export const width = 760;
const tickSize = 11.5;

/** The pressure at which houses are compared. */
export const comparedAt = 50;

/** Axes, their numbers, and the position of the graph's frame. */
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

/** A limit farther from everything else than this would squeeze the readings together; it is shown at the frame's edge. */
const farthestTarget = 4;

export function planLayout({ lines, targets }: GraphData, top: number): Layout {
  const bottom = top + plotHeight;
  const right = width - rightMargin;
  const pressures = chooseAxisEnds([
    comparedAt,
    ...targets.map(({ pressure }) => pressure),
    ...lines.flatMap((line) => listReadings(line).map(({ pressure }) => pressure)),
  ]);
  const own = lines.flatMap((line) => {
    const { from, to } = findDrawnRange(line);
    return [...listReadings(line).map(({ flow }) => flow), line.flowAt(from).value, line.flowAt(to).value];
  });
  const [least, most] = [Math.min(...own), Math.max(...own)];
  const near = targets
    .map(({ flow }) => flow)
    .filter((flow) => flow < most * farthestTarget && flow > least / farthestTarget);
  const flows = chooseAxisEnds([...own, ...near]);
  const flow = createLogScale(flows.low, flows.high, bottom, top);
  const flowTicks = chooseLabelledTicks(flow, () => tickSize + numberGap);
  const widest = Math.max(...flowTicks.map((tick) => measureText(formatTick(tick), tickSize)));
  const left = Math.ceil(40 + widest);
  const pressure = createLogScale(pressures.low, pressures.high, left, right);
  const pressureTicks = chooseLabelledTicks(pressure, (tick) => measureText(formatTick(tick), tickSize) + numberGap);
  return { left, right, top, bottom, pressure, flow, pressureTicks, flowTicks };
}

export function listReadings({ used, excluded }: GraphLine) {
  return [...used, ...excluded];
}

/** The pressure range of the readings, and that of the line, which is extended to 50 Pa if no reading reaches it. */
export function findDrawnRange(line: GraphLine): { least: number; most: number; from: number; to: number } {
  const pressures = line.used.map(({ pressure }) => pressure);
  const [least, most] = [Math.min(...pressures), Math.max(...pressures)];
  return { least, most, from: Math.min(least, comparedAt), to: Math.max(most, comparedAt) };
}

type Beyond = "above" | "below" | undefined;

/** Whether a limit is outside the grid. */
export function locateBeyondPaper({ flow }: GraphTarget, { flow: scale }: Layout): Beyond {
  return flow > scale.high ? "above" : flow < scale.low ? "below" : undefined;
}
