import type { Inspector } from "../book/inspector";
import type { ReviewedReading } from "./whole-tests";

const furthest = 60;
const leastSpread = 1.2;
const mostScatter = 1.02;

/**
 * Flow over c·f^m for each choice of three columns beside the readings that can be the device's c, m and fan pressure f: where they are, the
 * ratio is the same in every row. Mean ratios, the choices by which it is.
 */
export function calibrationRatios(
  view: Inspector,
  readings: readonly ReviewedReading[],
  flows: readonly number[],
): number[] {
  const columns = columnsBeside(view, readings);
  const sizes = columns.filter((column) => column.every((value) => value > 0));
  const found: number[] = [];
  for (const exponents of sizes.filter((column) => column.every((value) => value >= 0.4 && value <= 0.65))) {
    for (const pressures of sizes.filter((column) => Math.max(...column) > leastSpread * Math.min(...column))) {
      for (const coefficients of sizes) {
        const ratios = flows.map(
          (flow, row) => flow / ((coefficients[row] ?? 0) * (pressures[row] ?? 0) ** (exponents[row] ?? 0)),
        );
        const [least, most] = [Math.min(...ratios), Math.max(...ratios)];
        if (most / least < mostScatter) found.push((least + most) / 2);
      }
    }
  }
  return found;
}

/** The numbers of each column of the sheet in the readings' rows, where every row has one; the flows themselves left out. */
function columnsBeside(view: Inspector, readings: readonly ReviewedReading[]): number[][] {
  const own = new Set(readings.flatMap(({ flows }) => flows.map(({ column }) => column)));
  const columns: number[][] = [];
  for (let column = 0; column < furthest; column++) {
    if (own.has(column)) continue;
    const numbers = readings.flatMap(({ pressure }) => view.number({ ...pressure, column }) ?? []);
    if (numbers.length === readings.length) columns.push(numbers);
  }
  return columns;
}
