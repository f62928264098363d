import { onSheet } from "../blocks/address";
import { linearChart, lineSeries, pointSeries, tickSeries } from "../blocks/chart";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, native, palette } from "../blocks/style";
import { sheets } from "./places";

/** Series that are points without a line. */
export const forecastMarkers = ["now, with 95 % limits", "likely", "now", "final test"] as const;

interface Shown {
  readonly flow: string;
  readonly uncertainty: string;
  /** Degrees of freedom of the flow now; blank for infinite ones. */
  readonly freedom: string;
  readonly value: (symbol: string) => string;
}

/** The flow now and the range of the final test as bars with a mark, against the flow that the limit allows. */
export function forecastChart(sheet: Sheet, top: number, shown: Shown): void {
  points(sheet, top, shown);
  const at = (letters: string, from: number, to: number) =>
    onSheet(sheets.forecast, `${letters}${top + from}:${letters}${top + to}`);
  const one = (letters: string, row: number) => at(letters, row, row);
  const series = [
    lineSeries("flow now, 95 %", at("J", 2, 3), at("K", 2, 3), palette.petrolMid, 7),
    pointSeries(forecastMarkers[0], one("J", 4), one("K", 4), "diamond", palette.petrol, palette.petrol, 11),
    lineSeries("final test, best to worst", at("J", 5, 6), at("K", 5, 6), palette.inputEdge, 7),
    pointSeries(forecastMarkers[1], one("J", 7), one("K", 7), "circle", palette.copper, palette.copper, 11),
    lineSeries("limit", at("J", 8, 9), at("K", 8, 9), palette.ink, 2, "dash"),
    tickSeries(forecastMarkers[2], one("L", 2), one("K", 2), "r", 9),
    tickSeries(forecastMarkers[3], one("L", 5), one("K", 5), "r", 9),
  ];
  const from = { row: top - 1, col: 1 };
  sheet.chart(
    linearChart(
      series,
      [1, 5, 6],
      { from, to: { row: top + 18, col: 8 } },
      {
        x: { title: "flow at 50 Pa, m³/h", min: 0, gridlines: true },
        y: { title: "", min: 0, max: 3, step: 1, gridlines: false, numbered: false },
        alternative:
          "Two bars over the flow at 50 Pa: the flow now with its 95 % limits, and the final test from best to worst with a mark at the likely flow; a dashed line for the flow that the limit allows.",
        textSize: 9,
      },
    ),
  );
}

/** Cells behind the chart, beside the printed page; #N/A leaves a gap. */
function points(sheet: Sheet, top: number, { flow, uncertainty, freedom, value }: Shown): void {
  section(sheet, top, ["J", "L"], "Behind the chart (not printed)");
  columnHeads(sheet, top + 1, "J", ["flow", "height", "label at"]);
  const known = (formula: string, ...cells: readonly string[]) =>
    `IF(COUNT(${cells.join(",")})<${cells.length},NA(),${formula})`;
  const factor = `IF(COUNT(${freedom})=0,_xlfn.NORM.S.INV(0.975),_xlfn.T.INV.2T(0.05,MAX(1,${freedom})))`;
  const limit = (sign: string) => known(`${flow}*EXP(${sign}${factor}*${uncertainty}/${flow})`, flow, uncertainty);
  const lines: readonly (readonly [formula: string, height: number])[] = [
    [limit("-"), 2],
    [limit(""), 2],
    [known(flow, flow), 2],
    [known(value("q50_best"), value("q50_best")), 1],
    [known(value("q50_worst"), value("q50_worst")), 1],
    [known(value("q50_likely"), value("q50_likely")), 1],
    [known("AllowedFlow", "AllowedFlow"), 0],
    [known("AllowedFlow", "AllowedFlow"), 3],
  ];
  lines.forEach(([formula, height], index) => {
    sheet.formula(`J${top + 2 + index}`, formula, native(decimals(1)));
    sheet.put(`K${top + 2 + index}`, height, native(decimals(0)));
    sheet.put(`L${top + 2 + index}`, 0, native(decimals(0)));
  });
}
