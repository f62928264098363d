import {
  baselineNames,
  baselinePressure as baselineOf,
  directions,
  fanFlow as flowOf,
  inducedPressures,
  MethodError,
  pressureSigns,
  type RowReading,
} from "../core/index";
import { choice, isBlankOrZero, onlyCell, isOmitted, numberIn, numbersIn, oneOf, plain, rowsOf } from "./cells/cells";
import { inCell, toCellError } from "./cells/host-error";
import { numbers, optional, sizes, spread } from "./cells/spread";

/** The readings before a test and, unless the argument was left out, after it. */
export function baselineReadings(
  before: unknown,
  after: unknown,
  names: readonly [string, string] = baselineNames,
): [before: number[], after?: number[]] {
  const first = numbersIn(before, names[0]);
  return isOmitted(after) ? [first] : [first, numbersIn(after, names[1])];
}

/**
 * Zero-flow pressure of the test Δp0, Pa, signed: the mean of the readings before and after, each set averaged first.
 * Read with the flow device covered.
 * Equation: Δp0 = (Δp01 + Δp02)/2.
 * Source: ISO 9972:2015, zero-flow pressure difference.
 * @customfunction BASELINEPRESSURE
 * @param before Readings before the test, Pa, signed, indoors minus outdoors. 0 is a value: pass blanks as "".
 * @param [after] Readings after the test, Pa. 0 is a value: pass blanks as "".
 * @returns The baseline, Pa.
 * @core readings/baseline.ts
 * @check authorities/random-steps.test.ts
 */
export function baselinePressure(before: any[][], after?: any[][]): number {
  const names = ["before", "after"] as const;
  return inCell(() => {
    const [first, second] = baselineReadings(before, after, names);
    return baselineOf(first, second, names).pressure;
  });
}

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

/**
 * Flow of a calibrated device q, in the unit of its coefficient for the opening in use. The density factor counts where both densities are given.
 * A fan pressure outside the opening's valid range is an error: nothing is extrapolated.
 * Equation: q = c·f^m·√(ρ_cal/ρ).
 * Source: the device's calibration certificate; ISO 9972:2015 and ASTM E779 for the density.
 * @customfunction FANFLOW
 * @param fan_pressures Pressure of the flow device, Pa, above 0. 0 means blank.
 * @param coefficients c of the opening in use, one for all or one a row. 0 means blank.
 * @param exponents m of the opening in use. 0 means blank.
 * @param [lowest] Lowest calibrated fan pressure, Pa. 0 means not given.
 * @param [highest] Highest calibrated fan pressure, Pa. 0 means not given.
 * @param [calibration_density] Air density of the calibration ρ_cal; with actual_density, in one unit. 0 means not given.
 * @param [actual_density] Density of the air at the device ρ: indoor air depressurizing, outdoor air pressurizing. 0 means not given.
 * @returns The flow; blank where the fan pressure is blank.
 * @core readings/fan-flow.ts
 * @check authorities/random-steps.test.ts
 */
export function fanFlow(
  fan_pressures: any[][],
  coefficients: any[][],
  exponents: any[][],
  lowest?: any[][],
  highest?: any[][],
  calibration_density?: any[][],
  actual_density?: any[][],
): any[][] {
  const inputs = {
    fanPressure: sizes("fan_pressures", fan_pressures),
    coefficient: sizes("coefficients", coefficients),
    exponent: sizes("exponents", exponents),
    lowest: optional(numbers("lowest", lowest)),
    highest: optional(sizes("highest", highest)),
    calibration: optional(sizes("calibration_density", calibration_density)),
    actual: optional(sizes("actual_density", actual_density)),
  };
  return inCell(() =>
    spread(inputs, ({ fanPressure, coefficient, exponent, lowest, highest, calibration, actual }) => {
      if ((calibration === undefined) !== (actual === undefined)) {
        const absent = actual === undefined ? "actual_density" : "calibration_density";
        throw new MethodError("missing", absent, "the density correction needs both densities");
      }
      const densities = calibration !== undefined && actual !== undefined ? { calibration, actual } : undefined;
      return flowOf(fanPressure, { coefficient, exponent, lowest, highest }, densities);
    }),
  );
}
