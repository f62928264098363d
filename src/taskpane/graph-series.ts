import type { GraphAnswer } from "../views/desk/answers";
import { palette } from "../workbook/palette";
import type { GraphSeries } from "./port/port";

type Points = GraphAnswer["readings"];

const listPoints = (points: readonly Pick<Points[number], "pressure" | "flow">[]): GraphSeries["points"] =>
  points.map(({ pressure, flow }) => [Math.abs(pressure), Math.abs(flow)]);

/** What a chart in Excel shows of a graph: readings, those that the fit left out, fitted lines over the range of their readings, and limits. */
export function listSeries({ lines, readings, limits }: GraphAnswer): GraphSeries[] {
  const ofLines = lines.flatMap(({ name, colour, marker, ends }): GraphSeries[] => {
    const pick = (isUsed: boolean) => readings.filter((one) => one.line === name && one.isUsed === isUsed);
    const unused = pick(false);
    return [
      { name, kind: "readings", colour, marker, points: listPoints(pick(true)) },
      { name: `${name}, fitted line`, kind: "line", colour, marker, points: listPoints(ends) },
      ...(unused.length === 0
        ? []
        : [{ name: `${name}, not used`, kind: "unused", colour, marker, points: listPoints(unused) } as const]),
    ];
  });
  const ofLimits = limits.map((limit): GraphSeries => ({
    name: limit.words,
    kind: "limit",
    colour: `#${palette.fail}`,
    marker: "flag",
    labelled: isAbove(limit, lines) ? "Left" : "Right",
    points: listPoints([limit]),
  }));
  return [...ofLines, ...ofLimits];
}

/** Left of a limit above the lines there is room for its name, since they rise to the right; below them it is on the right. */
function isAbove({ pressure, flow }: GraphAnswer["limits"][number], lines: GraphAnswer["lines"]): boolean {
  return lines.every(({ ends: [first, last] }) => {
    if (!first || !last) return true;
    const exponent = Math.log(last.flow / first.flow) / Math.log(last.pressure / first.pressure);
    return flow >= first.flow * (pressure / first.pressure) ** exponent;
  });
}
