import { depressurization, pressurization } from "../workbook/graph/line-style";
import { byResult } from "../workbook/looks";
import { palette } from "../workbook/palette";
import type { Grid } from "./block-grid";
import type { BlockChart } from "./port/port";

/** Below settings and readings: the graph, and the points that it follows. */
const area = { row: 31, column: 0, rows: 28, columns: 8 } as const;
const labelColumn = 2;
const firstColumn = 4;
const headRow = 60;
const firstPoint = headRow + 2;

/** A direction with the cells that its points are computed from. */
interface Curve {
  readonly direction: "depressurization" | "pressurization";
  readonly readings: readonly (readonly [pressure: string, flow: string])[];
  /** A formula for a value of its result. */
  readonly findValue: (symbol: string) => string;
}

/** Two columns for each direction: its readings, the ends of its line, and once the limit. #N/A, which a chart leaves out, where there is nothing yet. */
export function writeGraph(grid: Grid, curves: readonly Curve[], limit: string, flowUnit: string): BlockChart {
  const count = Math.max(...curves.map(({ readings }) => readings.length));
  const [lineRow, limitRow] = [firstPoint + count, firstPoint + count + 2];
  const labels = [
    ...Array.from({ length: count }, (_, index) => `reading ${index + 1}`),
    ...["fitted line, lowest Δp", "fitted line, highest Δp", "limit at 50 Pa"],
  ];
  const columns = 2 * curves.length;
  const wide = firstColumn - labelColumn + columns;
  grid.write("heading", headRow, labelColumn, "Points of the graph; #N/A is left out on purpose", wide);
  labels.forEach((label, index) => grid.put(firstPoint + index, labelColumn, label));
  grid.dress("unit", firstPoint, labelColumn, labels.length);
  grid.dress("columnHead", headRow + 1, firstColumn, 1, columns);
  grid.dress("native", firstPoint, firstColumn, labels.length, columns, byResult);
  const series = curves.flatMap((curve, index) => {
    const column = firstColumn + 2 * index;
    grid.put(headRow + 1, column, `Δp, Pa, ${shortNames[curve.direction]}`, `q, ${flowUnit}`);
    listPoints(curve).forEach((point, reading) => grid.put(firstPoint + reading, column, ...point));
    listEnds(curve, (end) => grid.name(lineRow + end, column)).forEach((point, end) =>
      grid.put(lineRow + end, column, ...point),
    );
    const { colour, marker } = looks[curve.direction];
    const name = curve.direction;
    return [
      { name, kind: "readings", colour, marker, ...place(firstPoint, column, count) },
      { name: `${name}, fitted line`, kind: "line", colour, marker, ...place(lineRow, column, 2) },
    ] as const;
  });
  grid.put(limitRow, firstColumn, 50, `=IF(COUNT(${limit})=0,NA(),${findLimitFlow(curves, limit)})`);
  grid.addPart("Graph", grid.name(area.row, area.column, area.rows, area.columns), "Stillair");
  grid.addPart("Points of the graph", grid.name(headRow + 1, firstColumn, labels.length + 1, columns), "Stillair");
  const limitLook = { kind: "limit", colour: `#${palette.fail}`, marker: "flag", labelled: "Top" } as const;
  return {
    title: "Air leakage graph",
    description,
    flowUnit,
    area,
    series: [...series, { name: "limit of n50", ...limitLook, ...place(limitRow, firstColumn, 1) }],
  };
}

const looks = { depressurization, pressurization };
const shortNames = { depressurization: "depr.", pressurization: "press." };

const description =
  "Air leakage graph on logarithmic axes: readings and fitted lines of the depressurization and the pressurization test, and the flow at which n50 is the limit.";

const place = (row: number, column: number, rows: number) => ({
  pressures: { row, column, rows, columns: 1 },
  flows: { row, column: column + 1, rows, columns: 1 },
});

/** Induced pressure and flow through the envelope of each reading. */
const listPoints = ({ readings, findValue }: Curve): string[][] =>
  readings.map(([pressure, flow]) =>
    [`ABS(${pressure}-${findValue("dp0")})`, `${flow}*${findValue("k_q")}`].map(
      (formula) => `=IF(COUNT(${pressure},${flow})<2,NA(),IFERROR(${formula},NA()))`,
    ),
  );

/** The line at the lowest and at the highest reading. */
const listEnds = ({ findValue }: Curve, nameEnd: (end: number) => string): string[][] =>
  ["dp_min", "dp_max"].map((symbol, end) => [
    `=IFERROR(1*${findValue(symbol)},NA())`,
    `=IFERROR(${findValue("C")}*${nameEnd(end)}^${findValue("n")},NA())`,
  ]);

/** The flow at which n50, which is q50 over the volume, is the limit. */
const findLimitFlow = (curves: readonly Curve[], limit: string): string =>
  curves
    .map(({ findValue }) => `${limit}*${findValue("q50")}/${findValue("n50")}`)
    .reduceRight((later, one) => `IFERROR(${one},${later})`, "NA()");
