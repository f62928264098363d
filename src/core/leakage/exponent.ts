import { ensure } from "../errors";

/**
 * An exponent that is assumed or typed: 0.5 (openings) to 1 (fine cracks), with some margin. A number beyond is a typing error.
 * ISO 9972:2015 wants 0.5 to 1.0; the margin is common practice, no source.
 */
export const givenExponents = { lowest: 0.4, highest: 1.1, rule: "from 0.5 to 1, with some margin" } as const;

/** Throws "invalid" unless an exponent given by hand is one that leakage can have. */
export function requireExponent(exponent: number, argument: string, row?: number): void {
  const { lowest, highest, rule } = givenExponents;
  ensure(exponent >= lowest && exponent <= highest, argument, () => `${rule} (got ${exponent})`, row);
}

/**
 * Throws "invalid" unless an exponent is one that readings can give: above 0, at most 1.5. A fit through readings that went wrong leaves 0.4 to 1.1; its figures
 * are computed all the same, so that the tester sees them beside the check of validity that they break. What lies beyond 1.5 is no leakage at all (common
 * practice, no source).
 */
export function requireFittedExponent(exponent: number): void {
  ensure(
    exponent > 0 && exponent <= 1.5,
    "exponent",
    () => `above 0 and not more than 1.5, usually 0.5 to 1 (got ${exponent})`,
  );
}
