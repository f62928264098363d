import { leakageFlow as flowAt } from "../../core/index";
import { inCell } from "../cells/host-error";
import { sizes, spread } from "../cells/spread";

/**
 * Flow of the leakage curve at a pressure, in the flow unit of C.
 * Equation: q = C·Δp^n.
 * Source: ISO 9972:2015; ASTM E779-19.
 * @customfunction LEAKAGEFLOW
 * @param coefficient C. 0 means blank.
 * @param exponent n. 0 means blank.
 * @param pressure Δp, Pa, above 0. 0 means blank.
 * @returns The flow.
 * @core leakage/curve.ts
 * @check authorities/dm4bem.test.ts authorities/trade-practice.test.ts
 */
export function leakageFlow(coefficient: any[][], exponent: any[][], pressure: any[][]): any[][] {
  const inputs = {
    coefficient: sizes("coefficient", coefficient),
    exponent: sizes("exponent", exponent),
    pressure: sizes("pressure", pressure),
  };
  return inCell(() => spread(inputs, ({ coefficient, exponent, pressure }) => flowAt(coefficient, exponent, pressure)));
}
