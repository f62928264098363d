import type { ComputedReading } from "../book/tests/computed-runs";
import type { GraphLine } from "./data";
import { findDrawnRange, type Layout, formatSignificant } from "./axes";
import { type Look, mark } from "./line-style";
import { writeElement, writePath } from "./svg";
import { escapeHtml } from "../html";

const steps = 48;

/** Pressures evenly spaced along the axis. */
function spacePressures(from: number, to: number): number[] {
  return Array.from({ length: steps + 1 }, (_, step) => from * (to / from) ** (step / steps));
}

type Point = readonly [x: number, y: number];

/** Flows far outside the grid are clamped, to avoid astronomical coordinates. */
function placeOf({ pressure, flow, top, bottom }: Layout, atPressure: number, value: number): Point {
  const y = flow.place(value);
  const room = bottom - top;
  return [pressure.place(atPressure), Math.min(bottom + room, Math.max(top - room, y))];
}

/** The confidence band: a pale fill with thin edges in the line's dash pattern. */
export function drawBand(line: GraphLine, look: Look, layout: Layout): string {
  const { from, to } = findDrawnRange(line);
  const pressures = spacePressures(from, to);
  const limits = pressures.map((pressure) => line.flowAt(pressure));
  const traceEdge = (side: "lower" | "upper") =>
    limits.map((limit, index) => placeOf(layout, pressures[index] ?? 0, limit[side]));
  const [lower, upper] = [traceEdge("lower"), traceEdge("upper")];
  const ground = { d: writePath([...upper, ...lower.reverse()], true), fill: look.colour, "fill-opacity": 0.13 };
  const thin = {
    fill: "none",
    stroke: look.colour,
    "stroke-width": 0.7,
    "stroke-dasharray": look.dash,
    "stroke-opacity": 0.75,
  };
  return (
    writeElement("path", ground) +
    writeElement("path", { d: writePath(upper), ...thin }) +
    writeElement("path", { d: writePath(lower.reverse()), ...thin })
  );
}

/** The line through the readings, and thinner where extended to 50 Pa. */
export function drawFittedLine(line: GraphLine, look: Look, layout: Layout): string {
  const { least, most, from, to } = findDrawnRange(line);
  const drawStroke = (a: number, b: number, thick: number) =>
    a < b
      ? writeElement("path", {
          d: writePath([a, b].map((pressure) => placeOf(layout, pressure, line.flowAt(pressure).value))),
          fill: "none",
          stroke: look.colour,
          "stroke-width": thick,
          "stroke-dasharray": look.dash,
        })
      : "";
  return drawStroke(from, least, 1) + drawStroke(least, most, 2) + drawStroke(most, to, 1);
}

/** The marks of all readings, with their figures as tooltips. */
export function drawReadings(line: GraphLine, look: Look, layout: Layout, flowUnit: string): string {
  const drawReading = (kind: "used" | "excluded") => (point: ComputedReading) => {
    const [x, y] = placeOf(layout, point.pressure, point.flow);
    const out = kind === "excluded" ? ", not used" : "";
    const words = `${line.name}${out}: ${formatSignificant(point.pressure, 3)} Pa, ${formatSignificant(point.flow, 4)} ${flowUnit}`;
    return mark(look, x, y, kind, escapeHtml(words));
  };
  return [...line.excluded.map(drawReading("excluded")), ...line.used.map(drawReading("used"))].join("");
}

/** Points along the line, for labels to avoid. */
export function traceLine(line: GraphLine, layout: Layout): Point[] {
  const { from, to } = findDrawnRange(line);
  return spacePressures(from, to).map((pressure) => placeOf(layout, pressure, line.flowAt(pressure).value));
}
