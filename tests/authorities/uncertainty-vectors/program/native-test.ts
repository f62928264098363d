import type { BudgetInputs } from "./inputs";
import { nativeLine } from "./native-fits";
import { courseOfDrift, shareOfAfter } from "./whole-test";

/** Errors by the names of the budget's rows, and those of each reading: of its pressure in Pa, of ln q. */
export interface NativeErrors {
  readonly of: Readonly<Record<string, number>>;
  readonly pressures: readonly number[];
  readonly flows: readonly number[];
}

export interface NativeOutcome {
  readonly n: number;
  /** ln of the flow at 50 Pa under reference conditions. */
  readonly lnFlow50: number;
}

/** Density of moist air, kg/m³. */
function density(celsius: number, barometer: number, humidity: number): number {
  const kelvin = celsius + 273.15;
  const vapour = humidity * Math.exp(59.484085 - 6790.4985 / kelvin - 5.02802 * Math.log(kelvin));
  return (barometer - 0.37802 * vapour) / (287.055 * kelvin);
}

/** Sutherland's viscosity of air over that at 20 °C. */
function viscosityRatio(celsius: number): number {
  const [kelvin, reference] = [celsius + 273.15, 293.15];
  return (kelvin / reference) ** 1.5 * ((reference + 110.4) / (kelvin + 110.4));
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** The whole test of one direction in doubles, for simulations: undefined where errors leave a pressure that has no logarithm. */
export function nativeTest(inputs: BudgetInputs, index: number): (errors: NativeErrors) => NativeOutcome | undefined {
  const given = inputs.directions[index]!;
  const isDepressurization = given.direction === "depressurization";
  const side = isDepressurization ? -1 : 1;
  const [before, after] = [mean(given.baseline_before), mean(given.baseline_after ?? given.baseline_before)];
  const shares = shareOfAfter(given).map(Number);
  const courses = courseOfDrift(given).map(Number);
  const fans = given.opening.map((name) => ({ name, ...inputs.openings[name]! }));
  const { pressure_uncertainty: ofPressure, flow_uncertainty: ofFlow } = given;
  const asRead = given.readings.map((reading, i) => side * (reading - before - (after - before) * shares[i]!));
  const ux = ofPressure === null ? undefined : asRead.map((pressure) => ofPressure / pressure);
  const uy = ofFlow === null ? undefined : asRead.map(() => ofFlow);

  return ({ of, pressures, flows }) => {
    const error = (name: string) => of[name] ?? 0;
    const barometer = inputs.barometer + error("pb");
    const [indoor, outdoor] = [inputs.indoor_temperature + error("ti"), inputs.outdoor_temperature + error("te")];
    const inside = density(indoor, barometer, inputs.indoor_humidity + error("phii"));
    const outside = density(outdoor, barometer, inputs.outdoor_humidity + error("phie"));
    const [atFan, inLeaks] = isDepressurization ? [inside, outside] : [outside, inside];
    const lnAir = Math.log(Math.sqrt(inputs.calibration_density / atFan) * (atFan / inLeaks));
    const offset = error("off_e") + error("wind") + error("stack") - error("bconst");
    const [first, last] = [before + error("B1"), after + error("B2")];
    const [x, y]: [number[], number[]] = [[], []];
    for (let i = 0; i < given.readings.length; i++) {
      const zero = first + (last - first) * shares[i]!;
      const moved = given.readings[i]! + pressures[i]! + offset + error("drift") * courses[i]!;
      const induced = side * (moved - zero) * (1 + error("gain_e"));
      const fan = given.fan_pressures[i]! * (1 + error("gain_f")) + error("off_f");
      if (!(induced > 0 && fan > 0)) return undefined;
      const { name, coefficient, exponent, pivot_Pa } = fans[i]!;
      const gain = (1 + error("gam0")) * (1 + error(`gam_${name}`));
      x.push(Math.log(induced));
      y.push(
        Math.log(coefficient * gain) +
          exponent * Math.log(fan) +
          error(`m_${name}`) * Math.log(fan / pivot_Pa) +
          lnAir +
          flows[i]!,
      );
    }
    const { n, a } = nativeLine(inputs.technique, { x, y, ux, uy });
    const lnDensity = Math.log(inLeaks / inputs.reference_density);
    const lnViscosity =
      inputs.standard === "ASTM E779" ? Math.log(viscosityRatio(isDepressurization ? outdoor : indoor)) : 0;
    return { n, lnFlow50: a + (1 - n) * lnDensity + (2 * n - 1) * lnViscosity + n * Math.log(50) };
  };
}
