import { ensure } from "../errors";

/**
 * Throws "invalid" unless a flow exponent given by hand is one that leakage can have: 0.5 (openings) to 1 (fine cracks), with some margin.
 * ISO 9972:2015 wants 0.5 to 1.0.
 */
export function requireExponent(exponent: number, argument: string, row?: number): void {
  ensure(exponent >= 0.4 && exponent <= 1.1, argument, () => `from 0.5 to 1, with some margin (got ${exponent})`, row);
}
