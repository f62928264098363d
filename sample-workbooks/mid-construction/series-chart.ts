import { onSheet } from "../blocks/address";
import { linearChart, lineSeries, pointSeries } from "../blocks/chart";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, native, palette } from "../blocks/style";
import { sheets } from "./places";
import { gainRows } from "./series-gains";
import { seriesRows } from "./series-steps";

const { first, last } = seriesRows;

/** Series of the workbook's charts that are points without a line. */
export const seriesMarkers = ["gain significant", "not significant, or as found"] as const;

/** The flow after each step, filled where the step is proved, against the flow that the limit allows. */
export function seriesChart(sheet: Sheet): void {
  points(sheet);
  const column = (letter: string) => onSheet(sheets.series, `${letter}${first}:${letter}${last}`);
  const at = (place: string) => onSheet(sheets.series, place);
  const series = [
    lineSeries("flow at 50 Pa", column("AH"), column("AI"), palette.petrolMid, 1.25),
    pointSeries(seriesMarkers[0], column("AH"), column("AJ"), "circle", palette.petrol, palette.petrol, 9),
    pointSeries(seriesMarkers[1], column("AH"), column("AK"), "x", palette.grey, palette.grey, 8),
    lineSeries("limit", at(`AM${first}:AM${first + 1}`), at(`AN${first}:AN${first + 1}`), palette.copper, 2, "dash"),
  ];
  const top = gainRows.total + 2;
  const from = { row: top, col: 17 };
  const chart = linearChart(
    series,
    [],
    { from, to: { row: top + 17, col: 32 } },
    {
      // A step before the first keeps the first mark clear of the numbers at the axis; it bears no number of its own.
      x: { title: "step", min: -1, step: 1, gridlines: false, format: "0;;0" },
      y: { title: "flow at 50 Pa, m³/h", min: 0, gridlines: true },
      alternative:
        "The flow at 50 Pa after each step of tape and retest as points joined by a line, filled where the gain is significant, and a dashed line for the flow that the limit allows.",
      textSize: 9,
    },
  );
  sheet.chart(chart);
}

/** Cells behind the chart, beside the printed pages; #N/A leaves a gap. */
function points(sheet: Sheet): void {
  section(sheet, first - 3, ["AH", "AN"], "Behind the chart (not printed)");
  columnHeads(sheet, first - 1, "AH", ["step", "flow", "significant", "not", "", "step", "limit"]);
  for (let row = first; row <= last; row++) {
    const known = `ISNUMBER(J${row})`;
    sheet.formula(`AH${row}`, `IF(${known},B${row},NA())`, native(decimals(0)));
    sheet.formula(`AI${row}`, `IF(${known},J${row},NA())`, native(decimals(1)));
    const significant = row === first ? "FALSE" : `AD${row - first - 1 + gainRows.first}="significant"`;
    sheet.formula(`AJ${row}`, `IF(${known},IF(${significant},J${row},NA()),NA())`, native(decimals(1)));
    sheet.formula(`AK${row}`, `IF(${known},IF(${significant},NA(),J${row}),NA())`, native(decimals(1)));
  }
  sheet.formula(`AM${first}`, "0", native(decimals(0)));
  sheet.formula(`AM${first + 1}`, `MAX(1,COUNT(J${first}:J${last})-1)`, native(decimals(0)));
  for (const row of [first, first + 1])
    sheet.formula(`AN${row}`, "IF(COUNT(AllowedFlow)=0,NA(),AllowedFlow)", native(decimals(1)));
}
