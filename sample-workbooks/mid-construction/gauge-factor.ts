/** Dry air at 20 °C and 101 325 Pa, kg/m³, as the standard's reference conditions have it. */
const referenceDensity = 1.2041;

/**
 * A formula for the factor from the flow that the gauge shows while depressurizing, at calibration density, to the flow through the envelope at
 * reference conditions: √(ρ_cal/ρ_i)·ρ_i/ρ_e·(ρ_e/ρ_0)^(1−n). Blank while a density is.
 */
export function gaugeFactor(indoors: string, outdoors: string, exponent: string): string {
  const atDevice = `SQRT(CalibrationDensity/${indoors})`;
  const throughEnvelope = `${indoors}/${outdoors}`;
  const atReference = `(${outdoors}/${referenceDensity})^(1-${exponent})`;
  return `IF(COUNT(${indoors},${outdoors},${exponent},CalibrationDensity)<4,"",${atDevice}*${throughEnvelope}*${atReference})`;
}
