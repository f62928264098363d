import { airDensity, airViscosity, REFERENCE_VISCOSITY } from "../../high-precision/air";
import type { Exact } from "../../high-precision/decimal";
import { at, exact, mean } from "../../high-precision/decimal";
import type { Points } from "../../high-precision/techniques";
import { lineThrough, type Line } from "./fits";
import type { BudgetInputs, DirectionInputs } from "./inputs";

/** Errors by the names of the budget's rows; what is not named is 0. */
export type Errors = Readonly<Record<string, Exact>>;

/** The line of one direction with the conditions that refer it to standard air: ln(ρ/ρ0) and ln(μ/μ0) of the air in the leaks. */
export interface Outcome extends Line {
  readonly lnDensity: Exact;
  readonly lnViscosity: Exact;
  /** ln of the true volume over the measured one. */
  readonly lnSize: Exact;
}

/** ln of the flow at a pressure under reference conditions: ln C_L + n·ln p. */
export function lnFlow({ n, a, lnDensity, lnViscosity }: Outcome, pressure: number): Exact {
  const lnCoefficient = a.plus(exact(1).minus(n).times(lnDensity)).plus(n.times(2).minus(1).times(lnViscosity));
  return lnCoefficient.plus(n.times(exact(pressure).ln()));
}

/** Where the line of the test gives the flow at a pressure under reference conditions: ln p − L + 2M. */
export function abscissa({ lnDensity, lnViscosity }: Outcome, pressure: number): Exact {
  return exact(pressure).ln().minus(lnDensity).plus(lnViscosity.times(2));
}

/** Weight of the baseline after in the zero of each reading: by its time where times are given, else ½; 0 where there is no such baseline. */
export function shareOfAfter({ readings, baseline_after, times, baseline_times }: DirectionInputs): Exact[] {
  return readings.map((_, i) => {
    if (baseline_after === null) return exact(0);
    if (times === null || baseline_times === null) return exact("0.5");
    const [before, after] = baseline_times.map(exact) as [Exact, Exact];
    return exact(at(times, i)).minus(before).dividedBy(after.minus(before));
  });
}

/** τ − ½ of each reading by its order; 0 where the zero follows the time. */
export function courseOfDrift({ readings, times }: DirectionInputs): Exact[] {
  const count = readings.length;
  return readings.map((_, i) => (times === null ? exact(2 * i + 1 - count).dividedBy(2 * count) : exact(0)));
}

/** One direction as the model of the measurement: from errors of the inputs to the line, the technique's weights held at the values read. */
export function modelOf(inputs: BudgetInputs, index: number): { points: Points; outcome: (errors: Errors) => Outcome } {
  const given = at(inputs.directions, index);
  const read = pointsWith(inputs, given, {});
  const points = { x: read.x, y: read.y, ...weightsOf(given, read.x) };
  const fit = lineThrough(inputs.technique, points);
  return {
    points,
    outcome: (errors) => {
      const { x, y, ...conditions } = pointsWith(inputs, given, errors);
      return { ...fit({ x, y }), ...conditions };
    },
  };
}

/** Stated uncertainties of the logarithms: u(x) = u_P/Δp, u(y) as stated. */
function weightsOf(given: DirectionInputs, x: readonly Exact[]): Pick<Points, "ux" | "uy"> {
  const { pressure_uncertainty: ofPressure, flow_uncertainty: ofFlow } = given;
  return {
    ...(ofPressure !== null && { ux: x.map((value) => exact(ofPressure).dividedBy(value.exp())) }),
    ...(ofFlow !== null && { uy: x.map(() => exact(ofFlow)) }),
  };
}

/** ln Δp and ln q of the readings, moved by errors. */
function pointsWith(inputs: BudgetInputs, given: DirectionInputs, errors: Errors) {
  const error = (name: string): Exact => errors[name] ?? exact(0);
  const isDepressurization = given.direction === "depressurization";
  const side = isDepressurization ? -1 : 1;
  const barometer = exact(inputs.barometer).plus(error("pb"));
  const indoor = exact(inputs.indoor_temperature).plus(error("ti"));
  const outdoor = exact(inputs.outdoor_temperature).plus(error("te"));
  const indoorDensity = airDensity(indoor, barometer, exact(inputs.indoor_humidity).plus(error("phii")));
  const outdoorDensity = airDensity(outdoor, barometer, exact(inputs.outdoor_humidity).plus(error("phie")));
  const [atFan, inLeaks] = isDepressurization ? [indoorDensity, outdoorDensity] : [outdoorDensity, indoorDensity];

  const before = mean(given.baseline_before.map(exact)).plus(error("B1"));
  const after = given.baseline_after === null ? before : mean(given.baseline_after.map(exact)).plus(error("B2"));
  const [shares, courses] = [shareOfAfter(given), courseOfDrift(given)];
  const offset = error("off_e").plus(error("wind")).plus(error("stack"));
  const x = given.readings.map((reading, i) => {
    const zero = before.plus(after.minus(before).times(at(shares, i))).plus(error("bconst"));
    const moved = exact(reading)
      .plus(offset)
      .plus(error("drift").times(at(courses, i)));
    return moved.minus(zero).times(side).times(error("gain_e").plus(1)).ln();
  });

  // Indicated flow to that of the air at the fan, then by the balance of mass to that of the air in the leaks.
  const lnDevice = exact(inputs.calibration_density).dividedBy(atFan).ln().dividedBy(2);
  const lnBalance = atFan.dividedBy(inLeaks).ln();
  const y = given.fan_pressures.map((pressure, i) => {
    const name = at(given.opening, i);
    const opening = inputs.openings[name];
    if (opening === undefined) throw new Error(`no opening ${name}`);
    const lnFan = exact(pressure).times(error("gain_f").plus(1)).plus(error("off_f")).ln();
    const lnIndicated = exact(opening.coefficient).ln().plus(exact(opening.exponent).times(lnFan));
    const byExponent = error(`m_${name}`).times(lnFan.minus(exact(opening.pivot_Pa).ln()));
    const byGain = error("gam0")
      .plus(1)
      .times(error(`gam_${name}`).plus(1))
      .ln();
    return lnIndicated.plus(byExponent).plus(byGain).plus(lnDevice).plus(lnBalance);
  });
  const viscosity = airViscosity(isDepressurization ? outdoor : indoor);
  return {
    x,
    y,
    lnDensity: inLeaks.dividedBy(exact(inputs.reference_density)).ln(),
    lnViscosity: inputs.standard === "ASTM E779" ? viscosity.dividedBy(REFERENCE_VISCOSITY).ln() : exact(0),
    lnSize: error("vol").plus(1).ln(),
  };
}
