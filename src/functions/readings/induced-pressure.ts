import {
  baselinePressure as baselineOf,
  directions,
  inducedPressures,
  MethodError,
  pressureSigns,
  type RowReading,
} from "../../core/index";
import { choice, isBlankOrZero, onlyCell, numberIn, oneOf, plain, rowsOf } from "../cells/cells";
import { inCell, toCellError } from "../cells/host-error";
import { requireCarried } from "../cells/largest-result";
import { baselineReadings } from "./baseline-pressure";

/**
 * Induced pressure differences Δp, Pa, signed, a row a reading.
 * Mixed signs, readings against the direction and readings within the baseline are errors that name the row.
 * Equation: Δp = reading − Δp0.
 * Source: ISO 9972:2015, induced pressure difference.
 * @customfunction INDUCEDPRESSURE
 * @param readings Pressure differences as read, Pa, indoors minus outdoors: negative depressurizing. 0 means blank.
 * @param baseline_before Baseline readings before the test, Pa, or one computed baseline. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa. 0 is a value: pass blanks as "".
 * @param [direction] "depressurization" or "pressurization"; checked against the signs.
 * @param [pressure_sign] "indoors minus outdoors" (default), "outdoors minus indoors" or "magnitude" (needs the direction).
 * @returns The induced pressures, Pa; blank where the reading is blank.
 * @core readings/induced-pressure.ts
 * @check authorities/steps-against-whole.test.ts
 */
export function inducedPressure(
  readings: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  direction?: string | null,
  pressure_sign?: string | null,
): any[][] {
  return inCell(() => {
    const rows = rowsOf(readings);
    if (rows.length === 0) throw new MethodError("missing", "readings", "no reading yet");
    if (rows.length > 1 && rows.some((row) => row.length > 1)) {
      throw new MethodError("invalid", "readings", `one column is needed, not ${rows[0]?.length}`);
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
    const { pressure } = baselineOf(...baselineReadings(baseline_before, baseline_after));
    const sign = choice(pressure_sign, pressureSigns, "pressure_sign", "indoors minus outdoors");
    const induced = inducedPressures(
      read,
      pressure,
      sign,
      oneOf(onlyCell(direction, "direction"), directions, "direction"),
    );
    const byRow = new Map<number, unknown>(induced.map(({ row, value }) => [row, value]));
    let row = 0;
    return rows.map((cells) => cells.map(() => ((row += 1), byRow.get(row) ?? unread.get(row) ?? "")));
  });
}
