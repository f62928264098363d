import {
  baselinePressure as baselineOf,
  directions,
  inducedPressures,
  pressureSigns,
  zeroOfReadings,
  type BaselineTimes,
  type RowReading,
} from "../../core/index";
import { choice, isBlankOrZero, isOmitted, numberIn, oneOf, onlyCell, plain, rowsOf } from "../cells/cells";
import { inCell, toCellError } from "../cells/host-error";
import { requireCarried } from "../cells/spread";
import { nameSettings } from "../settings/settings";
import { baselineReadings } from "./baseline-pressure";
import { invalid, missing } from "../cells/rule-codes";

/** The readings with their times, and the times of the baselines; without times as they are. Errors: times that do not match the readings; a baseline's time is not given (missing). */
function timesIn(
  times: unknown,
  before: unknown,
  after: unknown,
  readings: readonly RowReading[],
  count: number,
): [readings: readonly (RowReading & { time?: number | undefined })[], times: BaselineTimes | undefined] {
  if ([times, before, after].every(isOmitted)) return [readings, undefined];
  const cells = rowsOf(times).flat();
  if (cells.length !== count) {
    throw invalid("times", "unlikeSize", { count: cells.length, others: count, of: "readings" });
  }
  const given = (cell: unknown, name: string): number => {
    const time = numberIn(onlyCell(cell, name), name);
    if (time === undefined) throw missing(name, "notGiven");
    return time;
  };
  const timed = readings.map((reading) => ({
    ...reading,
    time: numberIn(cells[reading.row - 1], "times", reading.row),
  }));
  return [timed, { before: given(before, "time_before"), after: given(after, "time_after") }];
}

/**
 * Induced pressure differences Δp, Pa, signed, one row per reading. Mixed signs, readings that contradict the direction
 * and readings that do not exceed the baseline are errors that name the row. With times, the zero of each reading is
 * interpolated linearly between the baselines before and after.
 * Equation: Δp = reading − Δp0; with times Δp0 = Δp01 + (Δp02 − Δp01)·(t − t1)/(t2 − t1).
 * Source: ISO 9972:2015, induced pressure difference.
 * @customfunction INDUCEDPRESSURE
 * @param readings Pressure differences as read, Pa, indoors minus outdoors: negative when depressurizing. 0 means blank.
 * @param baseline_before Baseline readings before the test, Pa, or one computed baseline. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa. 0 is a value: pass blanks as "".
 * @param [direction] "depressurization" or "pressurization"; checked against the signs.
 * @param [pressure_sign] "indoors minus outdoors" (default), "outdoors minus indoors" or "magnitude" (needs the direction).
 * @param [times] When each reading was taken, in any unit, such as Excel's times. Omit to subtract the mean of the baselines from all.
 * @param [time_before] Time of the baseline before, in the same unit. 0 is a value.
 * @param [time_after] Time of the baseline after, in the same unit. 0 is a value.
 * @returns The induced pressures, Pa; blank where the reading is blank.
 * @core readings/induced-pressure.ts readings/baseline.ts
 * @check authorities/steps-against-whole.test.ts functions/times.test.ts
 */
export function inducedPressure(
  readings: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  direction?: string | null,
  pressure_sign?: string | null,
  times?: any[][],
  time_before?: any[][],
  time_after?: any[][],
): any[][] {
  return inCell(() => {
    const rows = rowsOf(readings);
    if (rows.length === 0) throw missing("readings", "notGiven");
    if (rows.length > 1 && rows.some((row) => row.length > 1)) {
      throw invalid("readings", "oneColumn", { got: rows[0]?.length ?? 0 });
    }
    requireCarried(Math.max(rows.length, rows[0]?.length ?? 0), "readings");
    // A cell that cannot be read spoils its own result; signs that contradict each other or the direction spoil them all.
    const unread = new Map<number, Error>();
    const read: RowReading[] = rows.flat().flatMap((cell, index) => {
      const row = index + 1;
      try {
        const value = isBlankOrZero(plain(cell, "readings", row)) ? undefined : numberIn(cell, "readings", row);
        return value === undefined ? [] : [{ row, value }];
      } catch (error) {
        if (rows.flat().length === 1) throw error;
        unread.set(row, toCellError(error));
        return [];
      }
    });
    const baseline = baselineOf(...baselineReadings(baseline_before, baseline_after));
    const [timed, timesOfBaselines] = timesIn(times, time_before, time_after, read, rows.flat().length);
    const zeros = nameSettings(() => zeroOfReadings(baseline, timed, timesOfBaselines, "times"), [], {
      "time of baseline after": "time_after",
    });
    const sign = choice(pressure_sign, pressureSigns, "pressure_sign", "indoors minus outdoors");
    const induced = inducedPressures(
      read,
      zeros,
      sign,
      oneOf(onlyCell(direction, "direction"), directions, "direction"),
    );
    const byRow = new Map<number, unknown>(induced.map(({ row, value }) => [row, value]));
    let row = 0;
    return rows.map((cells) => cells.map(() => ((row += 1), byRow.get(row) ?? unread.get(row) ?? "")));
  });
}
