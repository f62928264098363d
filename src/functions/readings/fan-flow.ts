import { fanFlow as flowOf } from "../../core/index";
import { bothOrNone } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { numbers, optional, sizes, spread } from "../cells/spread";

/**
 * Flow q of a calibrated device, in the unit of the coefficient of the opening in use. The density factor applies if
 * both densities are given. A fan pressure outside the opening's valid range is an error: nothing is extrapolated.
 * Equation: q = c·f^m·√(ρ_cal/ρ).
 * Source: the device's calibration certificate; ISO 9972:2015 and ASTM E779 for the density.
 * @customfunction FANFLOW
 * @param fan_pressures Pressure of the flow device, Pa, above 0. 0 means blank.
 * @param coefficients c of the opening in use, one for all or one per row. 0 means blank.
 * @param exponents m of the opening in use. 0 means blank.
 * @param [lowest] Lowest calibrated fan pressure, Pa. 0 means not given.
 * @param [highest] Highest calibrated fan pressure, Pa. 0 means not given.
 * @param [calibration_density] Air density of the calibration ρ_cal; in the same unit as actual_density. 0 means not given.
 * @param [actual_density] Density of the air at the device ρ: indoor air when depressurizing, outdoor air when pressurizing. 0 means not given.
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
      const densities = bothOrNone(calibration, "calibration_density", actual, "actual_density");
      return flowOf(
        fanPressure,
        { coefficient, exponent, lowest, highest },
        densities && { calibration: densities[0], actual: densities[1] },
      );
    }),
  );
}
