import { calibratedValue as valueOf, calibrationTable, type CalibrationPoint } from "../../core/index";
import { isBlank, numberIn, rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { numbers, spread } from "../cells/spread";
import { invalid, missing } from "../cells/rule-codes";

/**
 * A row of zeros is a blank row that a host sent as zeros, unless it fits there: before the first reading, or between one below 0 and one above.
 */
function isPoint(points: readonly { reading: number; value: number }[], index: number): boolean {
  const { reading, value } = points[index]!;
  if (reading !== 0 || value !== 0) return true;
  const [before, after] = [points[index - 1]?.reading, points[index + 1]?.reading];
  if (after === undefined || after === 0 || before === 0) return false;
  return before === undefined || before * after < 0;
}

function pointsIn(argument: unknown): CalibrationPoint[] {
  const points = rowsOf(argument).flatMap((cells, index) => {
    const row = index + 1;
    if (cells.length !== 2) {
      throw invalid("table", "columns", { columns: "reading and true value", got: cells.length });
    }
    if (cells.every(isBlank)) return [];
    const [reading, value] = [numberIn(cells[0], "table", row), numberIn(cells[1], "table", row)];
    if (reading === undefined || value === undefined) {
      throw missing(
        "table",
        "without",
        reading === undefined ? { part: "a value", lacks: "reading" } : { part: "a reading", lacks: "value" },
        row,
      );
    }
    return [{ reading, value, row }];
  });
  return points.filter((_, index) => isPoint(points, index));
}

/**
 * True value for a reading, interpolated linearly between the points of the instrument's calibration certificate. A
 * reading outside the table is an error: nothing is extrapolated.
 * Equation: x = x1 + (x2 − x1)·(r − r1)/(r2 − r1).
 * Source: the instrument's calibration certificate; linear interpolation.
 * @customfunction CALIBRATEDVALUE
 * @param reading Readings, in the unit of the table. 0 is a value: pass blanks as "".
 * @param table Two columns, reading and true value, one row per point of the certificate, in any order. A row of zeros counts only as the first row or between readings below and above 0.
 * @returns True values.
 * @core readings/calibrated-value.ts
 * @check functions/quick.test.ts
 */
export function calibratedValue(reading: any[][], table: any[][]): any[][] {
  return inCell(() => {
    const points = calibrationTable(pointsIn(table));
    return spread({ reading: numbers("reading", reading) }, ({ reading }) => valueOf(reading, points));
  });
}
