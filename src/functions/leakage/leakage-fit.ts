import { coefficientWithLimits, exponentWithLimits, flowWithLimits, studentT, usualConfidence } from "../../core/index";
import { optionalNumber, wantsHeadings } from "../cells/cells";
import { degreesOfFreedomRow, expectedExponentRows, fitOf } from "./fit";
import { inCell } from "../cells/host-error";
import { percent, row, table } from "../cells/table";

/**
 * Leakage curve q = C·Δp^n fitted to the readings, as a table: C, n, r², number of readings, degrees of freedom, t,
 * standard errors, and the flow at 50 Pa, with confidence limits. Columns: what it is, symbol, value, lower, upper,
 * unit, source. The limits come from the scatter, or from the stated uncertainties with infinite degrees of freedom; if
 * the readings scatter more than stated, they are widened by √(χ²/(N − 2)). "weighted with expected exponent" is for
 * planning, mid-construction tests and repair: no standard asks for it. Its limits take in n of other houses too; rows
 * n_data and prior_share give n from the readings alone and the weight of 0.65.
 * Equation: ln q = ln C + n·ln Δp, by least squares; with an expected exponent n = prior_share·0.65 + (1 −
 * prior_share)·n_data, prior_share = u_d²/(0.057² + u_d²), u_d the standard error of n_data, and s_n =
 * 0.057·√prior_share.
 * Source: ISO 9972:2015, regression and confidence limits; ASTM E779-19; ISO/TS 28037:2010 (weighted); York et al., Am.
 * J. Phys. 72 (2004) 367 (errors in both); Gelman et al., Bayesian Data Analysis (2013) 14.8 (expected exponent; check
 * against your own copy).
 * @customfunction LEAKAGEFIT
 * @param pressures Induced pressures Δp, Pa, one per row, all of one sign. 0 beside a blank flow means blank.
 * @param flows Flows through the envelope, one per row; several columns are several fans, added together; type "off" for a fan that is not running. 0 beside a blank pressure means blank.
 * @param [technique] On the logarithms: "ordinary" (default) least squares, "weighted" by flow_uncertainty (or by q² without any), "organic correlation", "weighted organic correlation", "errors in both", "weighted with expected exponent" (0.65 ± 0.057 among houses).
 * @param [confidence] Two-sided confidence of the limits, a fraction; 0.95 if not given. 0 means blank.
 * @param [include] "yes" or "no" for each row; an excluded reading stays in the sheet but does not count. Blank or 0 means yes.
 * @param [pressure_uncertainty] Standard uncertainty of the pressures from reading to reading, Pa: one for all or one per row; for "weighted", "weighted organic correlation", "errors in both" and "weighted with expected exponent" (1 Pa if not given). 0 is a value: pass blanks as "".
 * @param [flow_uncertainty] Standard uncertainty of the flows from reading to reading, in their unit: one for all or one per row; for the same techniques. For "errors in both" a second column holds the correlation of the two errors. 0 is a value: pass blanks as "".
 * @param [headings] "yes" puts a heading row above the table.
 * @returns The table.
 * @core leakage/fit.ts leakage/expected-exponent.ts leakage/curve.ts
 * @check authorities/iso-ts-28037.test.ts authorities/pearson-york.test.ts authorities/dm4bem.test.ts authorities/technique-vectors.test.ts authorities/random-techniques/lines.test.ts
 */
export function leakageFit(
  pressures: any[][],
  flows: any[][],
  technique?: string | null,
  confidence?: any[][],
  include?: any[][],
  pressure_uncertainty?: any[][],
  flow_uncertainty?: any[][],
  headings?: string | null,
): any[][] {
  return inCell(() => {
    const fit = fitOf(pressures, flows, technique, include, pressure_uncertainty, flow_uncertainty);
    const level = optionalNumber(confidence, "confidence") || usualConfidence;
    const unit = "unit of flow";
    const source = fit.technique === "ordinary" ? "ISO 9972, regression" : `technique "${fit.technique}"`;
    const t = studentT(level, fit.degreesOfFreedom);
    return table(
      [
        row("leakage coefficient", "C", coefficientWithLimits(fit, level), `${unit}/Pa^n`, source),
        row("flow exponent", "n", exponentWithLimits(fit, level), "–", source),
        row("coefficient of determination of the logarithms", "r2", fit.determination, "–", source),
        row("readings used", "count", fit.count),
        degreesOfFreedomRow(fit),
        row(`Student's t, ${percent(level)} two-sided`, "t", t, "–", "ISO 9972, confidence limits"),
        row("standard error of n", "s_n", fit.standardErrorOfExponent, "–", source),
        row("standard error of ln C", "s_lnC", fit.standardErrorOfLogCoefficient, "–", source),
        row("flow at 50 Pa, test conditions", "q50", flowWithLimits(fit, 50, level), unit, "q = C·50^n"),
        ...expectedExponentRows(fit),
      ],
      wantsHeadings(headings),
    );
  });
}
