import { lineSeries, logLogChart, pointSeries, tickSeries } from "../blocks/chart";
import { columnHeads, pageHead } from "../blocks/heading";
import type { SheetChart } from "../blocks/hucre";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import type { DirectionPlaces } from "./direction";
import { graphPoints, type GraphPoints } from "./graph-points";
import { footer, letterhead, sheets, type Page } from "./places";

const chartRows = { top: 5, bottom: 42 } as const;

/** Series whose points stand without a line. */
export const markersOnly = [
  "Depressurization",
  "Pressurization",
  "not used",
  "50 Pa",
  "ticks",
  "20",
  "30",
  "40",
  "50",
  "60",
  "80",
] as const;

export function graphPage(
  directions: readonly [DirectionPlaces, DirectionPlaces],
): Page & { readonly points: GraphPoints } {
  const sheet = new Sheet(
    sheets.graph,
    [1.5, 22, 12, 12, 12, 12, 12, 13, 2, 3, ...Array<number>(14).fill(10)],
    palette.petrol,
    {
      orientation: "portrait",
      areas: ["B1:H50"],
      pages: 1,
      footer,
    },
  );
  const lead =
    "Flow through the envelope against induced pressure, both on logarithmic axes, at the conditions of the test.";
  pageHead(sheet, letterhead, ["B", "H"], "Air leakage graph", lead);
  sheet.heightOf(14, 5, 50);
  const points = graphPoints(sheet, directions);
  const from = { row: chartRows.top - 1, col: 1 };
  const to = { row: chartRows.bottom, col: 8 };
  sheet.chart(leakageChart(points, { from, to }, 9));
  columnHeads(sheet, 45, "B", ["<direction", "C", "n", "lower", "upper", "r²", "q50, m³/h"]);
  const lines: readonly (readonly [symbol: string, column: "value" | "lower" | "upper", digits: number])[] = [
    ["C", "value", 2],
    ["n", "value", 3],
    ["n", "lower", 3],
    ["n", "upper", 3],
    ["r2", "value", 4],
    ["q50", "value", 1],
  ];
  directions.forEach(({ direction, wholeTest, readings }, index) => {
    const row = 46 + index;
    sheet.put(`B${row}`, `${index === 0 ? "●" : "◆"}  ${direction}`, looks.label);
    lines.forEach(([symbol, column, digits], offset) => {
      const value = `IF(COUNTA(${readings})=0,"not tested",${wholeTest[column](symbol)})`;
      sheet.formula(`${"CDEFGH".charAt(offset)}${row}`, value, native(decimals(digits)));
    });
  });
  sheet.put(
    "B49",
    "Limits of n at 95 %, from the scatter of the readings. q50 is at reference conditions (20 °C, 101 325 Pa, dry air); the lines are drawn at the conditions of the test, so they cross " +
      "50 Pa a little beside it. A cross would mark a reading that is kept on its sheet but takes no part.",
    looks.note,
  );
  sheet.merge("B49:H50");
  return { sheet, names: {}, points };
}

/** Both directions, their lines, and a mark at 50 Pa; filled against open, solid against dashed, so that no colour is needed. */
export function leakageChart(points: GraphPoints, anchor: SheetChart["anchor"], size: number): SheetChart {
  const [depressurized, pressurized] = points.used;
  const [depressurizedLine, pressurizedLine] = points.lines;
  const [depressurizedOut, pressurizedOut] = points.unused;
  const small = size < 9;
  const series = [
    pointSeries(
      "Depressurization",
      depressurized.x,
      depressurized.y,
      "circle",
      palette.petrol,
      palette.petrol,
      small ? 5 : 8,
    ),
    lineSeries("fitted line", depressurizedLine.x, depressurizedLine.y, palette.petrol, small ? 1.25 : 1.75),
    pointSeries(
      "Pressurization",
      pressurized.x,
      pressurized.y,
      "diamond",
      palette.copper,
      palette.copper,
      small ? 6 : 9,
    ),
    lineSeries("fitted line", pressurizedLine.x, pressurizedLine.y, palette.copper, small ? 1.25 : 1.75, "dash"),
    lineSeries("at 50 Pa", points.fifty.x, points.fifty.y, palette.ink, 1, "sysDot"),
    pointSeries("not used", depressurizedOut.x, depressurizedOut.y, "x", palette.grey, palette.grey, small ? 5 : 7),
    pointSeries("not used", pressurizedOut.x, pressurizedOut.y, "x", palette.grey, palette.grey, small ? 5 : 7),
    tickSeries("50 Pa", points.fiftyLabel.x, points.fiftyLabel.y, "r", size),
    tickSeries("ticks", points.yTicks.x, points.yTicks.y, "l", size),
    ...points.xTicks.map(({ label, x, y }) => tickSeries(label, x, y, "b", size)),
  ];
  const hidden = series.map((_, index) => index).slice(4);
  return logLogChart(series, hidden, anchor, {
    xTitle: "induced pressure difference, Pa",
    yTitle: "air flow through the envelope, m³/h",
    alternative:
      "Air leakage graph on logarithmic axes: readings and fitted lines of the depressurization and the pressurization test, with 50 Pa marked.",
    textSize: size,
  });
}
