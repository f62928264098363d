import { referenceDensity, type Densities } from "./air";
import type { Draws } from "./draws";

/** A house that leaks by a power law: q = C_L·(ρ/ρ0)^(n−1)·Δp^n, m³/h of the air that enters the leaks. */
export interface House {
  /** C_L, m³/(h·Pa^n). */
  readonly coefficient: number;
  readonly exponent: number;
  /** m³ */
  readonly volume: number;
}

/** What a test should find. */
export interface Truth {
  readonly n: number;
  /** m³/h */
  readonly q50: number;
  /** 1/h */
  readonly n50: number;
  /** Effective leakage area at 4 Pa, C_d 1, cm². */
  readonly ELA4: number;
}

/** Flow exponents of houses, mean and standard deviation, as quick tests assume them, and what leaks can have. */
const population = { mean: 0.65, deviation: 0.057, lowest: 0.5, highest: 1 };

/** An invented house: q50 about 300 m³/h, volume about 520 m³, both within some 10 %, an exponent from the population. */
export function drawHouse(draws: Draws): House {
  const { mean, deviation, lowest, highest } = population;
  const exponent = draws.truncatedNormal(mean, deviation, lowest, highest);
  const flowAt50 = 300 * Math.exp(draws.normal(0.1));
  return { coefficient: flowAt50 / 50 ** exponent, exponent, volume: 520 * Math.exp(draws.normal(0.1)) };
}

/** A_L = q·√(ρ0/2)/√Δp at 4 Pa. Source: ASHRAE Handbook—Fundamentals 2021 ch. 16, effective air leakage area. */
export function truthOf({ coefficient, exponent, volume }: House): Truth {
  const flowAt = (pressure: number) => coefficient * pressure ** exponent;
  const squareMetres = ((flowAt(4) / 3600) * Math.sqrt(referenceDensity / 2)) / Math.sqrt(4);
  return { n: exponent, q50: flowAt(50), n50: flowAt(50) / volume, ELA4: 1e4 * squareMetres };
}

/** Volume flow of the air that passes the fan, m³/h, at a pressure across the envelope, Pa: what comes in goes out again, mass for mass. */
export function flowAtFan({ coefficient, exponent }: House, pressure: number, { leaks, fan }: Densities): number {
  const atLeaks = coefficient * (leaks / referenceDensity) ** (exponent - 1) * pressure ** exponent;
  return (atLeaks * leaks) / fan;
}
