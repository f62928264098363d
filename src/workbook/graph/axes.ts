import { comparedAt, tickSize, type Layout } from "./layout";
import { colours } from "./line-style";
import { paperLines, tickText } from "./scale";
import { element } from "./svg";
import { textAt } from "./text";

/** The paper: fine lines at each part of a decade, stronger ones where a number stands, the frame, numbers and titles. */
export function axes(layout: Layout, flowUnit: string): string {
  const { left, right, top, bottom, pressure, flow, pressureTicks, flowTicks } = layout;
  const parts: string[] = [];
  const vertical = (x: number, stroke: string) =>
    element("line", { x1: x, y1: top, x2: x, y2: bottom, stroke, "stroke-width": 0.8 });
  const horizontal = (y: number, stroke: string) =>
    element("line", { x1: left, y1: y, x2: right, y2: y, stroke, "stroke-width": 0.8 });
  for (const line of paperLines(pressure)) parts.push(vertical(pressure.place(line), colours.hair));
  for (const line of paperLines(flow)) parts.push(horizontal(flow.place(line), colours.hair));
  for (const tick of pressureTicks) parts.push(vertical(pressure.place(tick), colours.rule));
  for (const tick of flowTicks) parts.push(horizontal(flow.place(tick), colours.rule));
  parts.push(
    element("rect", {
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
    parts.push(textAt(pressure.place(tick), bottom + 17, tickText(tick), { size: tickSize, anchor: "middle", bold }));
  }
  for (const tick of flowTicks)
    parts.push(textAt(left - 7, flow.place(tick) + 0.36 * tickSize, tickText(tick), { size: tickSize, anchor: "end" }));
  const title = { size: 12, colour: colours.grey, anchor: "middle" } as const;
  parts.push(textAt((left + right) / 2, bottom + 37, "induced pressure difference, Pa", title));
  parts.push(textAt(16, (top + bottom) / 2, `flow through the envelope, ${flowUnit}`, { ...title, turned: true }));
  const x = pressure.place(comparedAt);
  parts.push(
    element("line", {
      x1: x,
      y1: top - 6,
      x2: x,
      y2: bottom,
      stroke: colours.ink,
      "stroke-width": 1.2,
      "stroke-dasharray": "1 3",
    }),
    textAt(x, top - 10, "50 Pa", { size: 12, bold: true, anchor: "middle" }),
  );
  return element("g", { "aria-hidden": "true" }, parts.join(""));
}
