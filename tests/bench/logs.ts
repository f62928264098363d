import { ratios, type Ratio } from "./ratio";
import { shippedFunctions } from "./shipped";

const count = 1_048_576;
const rowsPerStation = 600;

/** A log as long as a sheet, one row a second, stations of ten minutes from −10 to −65 Pa with gusts between neighbours alike; as a sheet hands it over. */
function madeLog(): number[][] {
  let [state, gust] = [1, 0];
  const draw = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647 - 0.5;
  return Array.from({ length: count }, (_, row) => {
    gust = 0.8 * gust + 0.6 * draw();
    const level = -10 - 5 * (Math.floor(row / rowsPerStation) % 12);
    return [45_000 + row / 86_400, Math.round(10 * (level + gust)) / 10];
  });
}

/** What no program can leave out: the cells as columns of numbers, sum and sum of squares of the pressures. */
function barePass(log: readonly number[][]): number {
  const [times, pressures] = [new Float64Array(log.length), new Float64Array(log.length)];
  for (let row = 0; row < log.length; row++) {
    times[row] = log[row]![0]!;
    pressures[row] = log[row]![1]!;
  }
  let sum = 0;
  let squares = 0;
  for (let row = 0; row < log.length; row++) {
    sum += pressures[row]!;
    squares += pressures[row]! * pressures[row]!;
  }
  return sum + squares + times[log.length - 1]!;
}

/** Ratio to a bare pass over the same cells. */
export function logRatios(bundle: string): Ratio[] {
  const logStations = shippedFunctions(bundle).get("LOGSTATIONS")!;
  const log = madeLog();
  const firstHalf = log.slice(0, count / 2);
  return ratios({ name: "bare pass", run: () => barePass(log) }, [
    {
      name: "LOGSTATIONS, 1 048 576 rows",
      run: () => logStations(log, null),
      half: () => logStations(firstHalf, null),
    },
  ]);
}
