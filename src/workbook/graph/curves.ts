import type { GraphLine, GraphPoint } from "./data";
import { drawnRange, type Layout, significant } from "./axes";
import { type Look, mark } from "./line-style";
import { element, pathOf } from "./svg";
import { escapeHtml } from "../html";

const steps = 48;

/** Pressures evenly spaced along the axis. */
function along(from: number, to: number): number[] {
  return Array.from({ length: steps + 1 }, (_, step) => from * (to / from) ** (step / steps));
}

type Point = readonly [x: number, y: number];

/** Flows far outside the paper are brought near it, so that no picture has coordinates of astronomical size. */
function placeOf({ pressure, flow, top, bottom }: Layout, atPressure: number, value: number): Point {
  const y = flow.place(value);
  const room = bottom - top;
  return [pressure.place(atPressure), Math.min(bottom + room, Math.max(top - room, y))];
}

/** The band of confidence: a pale ground with thin edges in the line's own dashes. */
export function band(line: GraphLine, look: Look, layout: Layout): string {
  const { from, to } = drawnRange(line);
  const pressures = along(from, to);
  const limits = pressures.map((pressure) => line.flowAt(pressure));
  const edge = (side: "lower" | "upper") =>
    limits.map((limit, index) => placeOf(layout, pressures[index] ?? 0, limit[side]));
  const [lower, upper] = [edge("lower"), edge("upper")];
  const ground = { d: pathOf([...upper, ...lower.reverse()], true), fill: look.colour, "fill-opacity": 0.13 };
  const thin = {
    fill: "none",
    stroke: look.colour,
    "stroke-width": 0.7,
    "stroke-dasharray": look.dash,
    "stroke-opacity": 0.75,
  };
  return (
    element("path", ground) +
    element("path", { d: pathOf(upper), ...thin }) +
    element("path", { d: pathOf(lower.reverse()), ...thin })
  );
}

/** The line through the readings, and thinner on to 50 Pa where no reading reaches it. */
export function fittedLine(line: GraphLine, look: Look, layout: Layout): string {
  const { least, most, from, to } = drawnRange(line);
  const stroke = (a: number, b: number, thick: number) =>
    a < b
      ? element("path", {
          d: pathOf([a, b].map((pressure) => placeOf(layout, pressure, line.flowAt(pressure).value))),
          fill: "none",
          stroke: look.colour,
          "stroke-width": thick,
          "stroke-dasharray": look.dash,
        })
      : "";
  return stroke(from, least, 1) + stroke(least, most, 2) + stroke(most, to, 1);
}

/** The marks of all readings; each says its figures when pointed at. */
export function readings(line: GraphLine, look: Look, layout: Layout, flowUnit: string): string {
  const one = (kind: "used" | "excluded") => (point: GraphPoint) => {
    const [x, y] = placeOf(layout, point.pressure, point.flow);
    const out = kind === "excluded" ? ", not used" : "";
    const words = `${line.name}${out}: ${significant(point.pressure, 3)} Pa, ${significant(point.flow, 4)} ${flowUnit}`;
    return mark(look, x, y, kind, escapeHtml(words));
  };
  return [...line.excluded.map(one("excluded")), ...line.used.map(one("used"))].join("");
}

/** Points along the line, for labels that keep clear of it. */
export function lineTrace(line: GraphLine, layout: Layout): Point[] {
  const { from, to } = drawnRange(line);
  return along(from, to).map((pressure) => placeOf(layout, pressure, line.flowAt(pressure).value));
}
