import { onSheet } from "../blocks/address";
import { linearChart, lineSeries, pointSeries } from "../blocks/chart";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, native, palette } from "../blocks/style";
import { sheets } from "./places";
import type { PointTestPlaces } from "./point-test";
import { quickRows } from "./quick";

/** Series that are points without a line. */
export const progressMarkers = ["quick tests", "multi-point tests"] as const;

const first = 8;
const count = quickRows.last - quickRows.first + 1;

/** The flow from day to day against what the limit allows. */
export function progressChart(sheet: Sheet, at: number, tests: readonly [PointTestPlaces, PointTestPlaces]): void {
  points(sheet, tests);
  const column = (letter: string, from: number, rows: number) =>
    onSheet(sheets.overview, `${letter}${from}:${letter}${from + rows - 1}`);
  const after = first + count;
  const series = [
    pointSeries(
      progressMarkers[0],
      column("N", first, count),
      column("O", first, count),
      "circle",
      palette.petrolMid,
      palette.petrol,
      8,
    ),
    pointSeries(
      progressMarkers[1],
      column("N", after, 2),
      column("O", after, 2),
      "diamond",
      palette.petrol,
      palette.petrol,
      10,
    ),
    lineSeries("limit", column("N", after + 2, 2), column("O", after + 2, 2), palette.copper, 2, "dash"),
  ];
  section(sheet, at, ["B", "H"], "From day to day");
  const from = { row: at, col: 1 };
  sheet.chart(
    linearChart(
      series,
      [],
      { from, to: { row: at + 16, col: 8 } },
      {
        x: { title: "", gridlines: false, format: "d mmm" },
        y: { title: "flow at 50 Pa, m³/h", min: 0, gridlines: true },
        alternative:
          "The flow at 50 Pa over the days of the tests, quick tests as circles, multi-point tests as diamonds, and a dashed line for the flow that the limit allows.",
        textSize: 8.5,
      },
    ),
  );
}

/** Cells behind the chart, beside the printed page; #N/A leaves a gap. */
function points(sheet: Sheet, tests: readonly [PointTestPlaces, PointTestPlaces]): void {
  section(sheet, first - 3, ["N", "O"], "Behind the chart (not printed)");
  columnHeads(sheet, first - 1, "N", ["day", "flow"]);
  const point = (row: number, day: string, flow: string) => {
    sheet.formula(`N${row}`, `IF(COUNT(${day},${flow})<2,NA(),${day})`, native("d mmm"));
    sheet.formula(`O${row}`, `IF(COUNT(${day},${flow})<2,NA(),${flow})`, native(decimals(1)));
  };
  for (let index = 0; index < count; index++) {
    const cell = (letter: string) => onSheet(sheets.quick, `${letter}${quickRows.first + index}`);
    point(first + index, cell("B"), cell("H"));
  }
  tests.forEach(({ day, q50 }, index) => {
    point(first + count + index, day, q50);
  });
  const quickDays = onSheet(sheets.quick, `B${quickRows.first}:B${quickRows.last}`);
  const days = [quickDays, ...tests.map(({ day }) => day)].join(",");
  (["MIN", "MAX"] as const).forEach((edge, index) => {
    const row = first + count + 2 + index;
    sheet.formula(`N${row}`, `IF(COUNT(${days})=0,NA(),${edge}(${days}))`, native("d mmm"));
    sheet.formula(`O${row}`, "IF(COUNT(AllowedFlow)=0,NA(),AllowedFlow)", native(decimals(1)));
  });
}
