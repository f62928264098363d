import { conformanceProbability as probabilityOf } from "../../core/index";
import { degreesOfFreedom } from "../leakage/fit";
import { inCell } from "../cells/host-error";
import { numbers, optional, sizes, spread } from "../cells/spread";

/**
 * Probability p_c that the true value meets an upper limit, given the result and its standard uncertainty u. Guarded
 * acceptance at 95 % requires 0.975 or more. The distribution is the one behind the limits result·exp(±U/result) of
 * UNCERTAINTYBUDGET.
 * Equation: p_c = Φ(ln(target/result)/(u/result)).
 * Source: JCGM 106:2012 7.2 and 7.3, on the logarithm of the result; Student's distribution for few degrees of freedom,
 * JCGM 101:2008 6.4.9.
 * @customfunction CONFORMANCEPROBABILITY
 * @param result The result, such as n50. 0 means blank.
 * @param standard_uncertainty u of the result (not expanded), in the same unit; with 0 the probability is 1 or 0. 0 is a value: pass blanks as "".
 * @param target The upper limit, in the same unit. 0 means blank.
 * @param [degrees_of_freedom] Effective degrees of freedom of u, truncated to a whole number; "infinite" or left out: normal distribution. 0 means blank.
 * @returns The probability, from 0 to 1.
 * @core judgement/verdict.ts
 * @check authorities/conformance.test.ts
 */
export function conformanceProbability(
  result: any[][],
  standard_uncertainty: any[][],
  target: any[][],
  degrees_of_freedom?: any[][],
): any[][] {
  const inputs = {
    result: sizes("result", result),
    uncertainty: numbers("standard_uncertainty", standard_uncertainty),
    target: sizes("target", target),
    degrees: optional(degreesOfFreedom("degrees_of_freedom", degrees_of_freedom)),
  };
  return inCell(() =>
    spread(inputs, ({ result, uncertainty, target, degrees }) => probabilityOf(result, uncertainty, target, degrees)),
  );
}
