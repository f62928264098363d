import type { RigErrors } from "./instruments";

/** The certificate of the flow device: q = c·f^m, m³/h at the density of its calibration, f in Pa. */
const certificate = { exponent: 0.5, density: 1.2041, coefficients: [25, 16] } as const;

/** Fan pressure about which the calibration was made, Pa: an error of the exponent does nothing there. */
export const pivot = 80;

/** The device's exponent, for the sheet. */
export const fanExponent = certificate.exponent;

/**
 * Fan pressure, Pa, that the device really has at a flow of air of a density. By the certificate it would show the flow times (1 + γ0)·(1 + γ)·(f/f*)^δm,
 * γ0 and γ the errors of its calibration, δm that of its exponent.
 */
export function fanPressureAt(
  flow: number,
  density: number,
  opening: number,
  { flowGain, openingGain, openingExponent }: RigErrors,
): number {
  const indicated = flow * Math.sqrt(density / certificate.density);
  const error = openingExponent[opening]!;
  const shownFlow = indicated * (1 + flowGain) * (1 + openingGain[opening]!);
  return (shownFlow / pivot ** error / certificate.coefficients[opening]!) ** (1 / (certificate.exponent - error));
}

/** Flow by the certificate from the fan pressure as read: indicated, at the density of the calibration. */
export function indicatedFlow(fanPressure: number, opening: number): number {
  return certificate.coefficients[opening]! * fanPressure ** certificate.exponent;
}

/** What turns an indicated flow to the actual one in air of a density. */
export function deviceFactor(density: number): number {
  return Math.sqrt(certificate.density / density);
}
