import { linearRegression, linearRegressionLine, rSquared } from "simple-statistics";
import regression from "regression";
import { ratios, type Ratio } from "./ratio";
import {
  flowCells,
  flows,
  halfOfFlows,
  halfOfPressures,
  pressureCells,
  pressures,
  testOfHalf,
  wholeTest,
} from "./readings";
import { shippedFunctions } from "./shipped";

/** What no program can leave out: the logarithms, the centred sums, the line, its residuals and standard errors. */
export function bareFit(): number[] {
  const count = pressures.length;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  let [meanX, meanY] = [0, 0];
  for (let index = 0; index < count; index++) {
    meanX += x[index] = Math.log(pressures[index]!);
    meanY += y[index] = Math.log(flows[index]!);
  }
  meanX /= count;
  meanY /= count;
  let [sumXX, sumXY, sumYY] = [0, 0, 0];
  for (let index = 0; index < count; index++) {
    const [h, k] = [x[index]! - meanX, y[index]! - meanY];
    sumXX += h * h;
    sumXY += h * k;
    sumYY += k * k;
  }
  const n = sumXY / sumXX;
  let residuals = 0;
  for (let index = 0; index < count; index++) residuals += (y[index]! - meanY - n * (x[index]! - meanX)) ** 2;
  const s = Math.sqrt(residuals / (count - 2));
  const sn = s / Math.sqrt(sumXX);
  return [n, Math.exp(meanY - n * meanX), sn, Math.hypot(s / Math.sqrt(count), sn * meanX), 1 - residuals / sumYY];
}

function bySimpleStatistics(): number {
  const points = pressures.map((pressure, index) => [Math.log(pressure), Math.log(flows[index]!)]);
  const line = linearRegression(points);
  return Math.exp(line.b) + rSquared(points, linearRegressionLine(line));
}

function byRegression(): number {
  const { equation, r2 } = regression.power(
    pressures.map((pressure, index): [number, number] => [pressure, flows[index]!]),
    { precision: 12 },
  );
  return equation[0]! + r2;
}

/** Ratios to the bare logarithms and sums of ten readings. */
export function fitRatios(bundle: string): Ratio[] {
  const shipped = shippedFunctions(bundle);
  const [leakageFit, testResult] = [shipped.get("LEAKAGEFIT")!, shipped.get("TESTRESULT")!];
  return ratios({ name: "bare logarithms and sums", run: bareFit }, [
    { name: "simple-statistics: line and r² on logarithms", run: bySimpleStatistics },
    { name: "regression: power law", run: byRegression },
    {
      name: "LEAKAGEFIT, cells to table",
      run: () => leakageFit(pressureCells, flowCells, null, null, null, null, null, null),
      half: () => leakageFit(halfOfPressures, halfOfFlows, null, null, null, null, null, null),
    },
    {
      name: "TESTRESULT, cells to table",
      run: () => testResult(...wholeTest(), null),
      half: () => testResult(...testOfHalf(), null),
    },
  ]);
}
