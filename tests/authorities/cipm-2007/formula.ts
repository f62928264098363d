import constants from "./constants.json";

interface Parts {
  readonly density: number;
  readonly compressibility: number;
  readonly vapourFraction: number;
  /** J/(kg·K), of dry air. */
  readonly gasConstant: number;
}

/** Density of moist air by CIPM-2007, in kg/m³ from °C, Pa and the relative humidity as a fraction, with its parts. */
export function cipmDensity(temperature: number, pressure: number, humidity: number): Parts {
  const T = temperature + 273.15;
  const { A, B, C, D } = constants.saturation;
  const saturation = Math.exp(A * T ** 2 + B * T + C + D / T);
  const { alpha, beta, gamma } = constants.enhancement;
  const enhancement = alpha + beta * pressure + gamma * temperature ** 2;
  const x = (humidity * enhancement * saturation) / pressure;
  const { a0, a1, a2, b0, b1, c0, c1, d, e } = constants.compressibility;
  const first =
    a0 + a1 * temperature + a2 * temperature ** 2 + (b0 + b1 * temperature) * x + (c0 + c1 * temperature) * x ** 2;
  const compressibility = 1 - (pressure / T) * first + (pressure / T) ** 2 * (d + e * x ** 2);
  const dry = constants.M_dry_air_kg_per_mol_at_400_ppm;
  const gasConstant = constants.R_J_per_mol_K / dry;
  const ideal = pressure / (gasConstant * T);
  const density = (ideal / compressibility) * (1 - x * (1 - constants.M_water_kg_per_mol / dry));
  return { density, compressibility, vapourFraction: x, gasConstant };
}
