import { saturationPressure, vapourDeficit, zeroCelsius, type AirState } from "../air/density";

/** Pressure of the air less the deficit of its vapour, Q = p − 0.37802·p_v; the density is Q/(287.055·T). */
function effectivePressure({ temperature, pressure, humidity }: AirState): number {
  return pressure - vapourDeficit * humidity * saturationPressure(temperature);
}

/** ln(ρ'/ρ) of two states of air. */
export function logDensityRatio(changed: AirState, state: AirState): number {
  return (
    Math.log(effectivePressure(changed) / effectivePressure(state)) -
    Math.log((changed.temperature + zeroCelsius) / (state.temperature + zeroCelsius))
  );
}

/** Derivatives of ln ρ. */
export interface DensityResponse {
  /** Per K. */
  readonly temperature: number;
  /** Per Pa of the barometer. */
  readonly pressure: number;
  /** Per unit of relative humidity. */
  readonly humidity: number;
}

/** Derivatives of ln ρ by the formula of airDensity; checked against central differences. */
export function densityResponse(state: AirState): DensityResponse {
  const T = state.temperature + zeroCelsius;
  const Q = effectivePressure(state);
  const saturation = saturationPressure(state.temperature);
  const vapour = state.humidity * saturation;
  return {
    temperature: -1 / T - (vapourDeficit * vapour * (6790.4985 / T ** 2 - 5.02802 / T)) / Q,
    pressure: 1 / Q,
    humidity: (-vapourDeficit * saturation) / Q,
  };
}

/** Derivative of ln μ per K, by Sutherland's formula. */
export function viscosityResponse(temperature: number): number {
  const T = temperature + zeroCelsius;
  return 1.5 / T - 1 / (T + 110.4);
}
