import { leakageDifference as differenceOf } from "../../core/index";
import { bothOrNone, isBlankOrZero, rowsOf, wantsHeadings } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { degreesOfFreedom } from "../leakage/fit";
import { headed, numbers, optional, sizes, spread } from "../cells/spread";

/** The flow before of the first row that is not blank: what a series of repairs started from. Where that row is wrong, no other takes its place. */
function firstFlow(argument: unknown): number | undefined {
  const cell = rowsOf(argument)
    .flat()
    .find((one) => !isBlankOrZero(one));
  const value = typeof cell === "object" && cell !== null && "basicValue" in cell ? cell.basicValue : cell;
  return typeof value === "number" && value > 0 ? value : undefined;
}

/**
 * Change of leakage between two tests, one row per pair, with its uncertainty and whether it is significant. Seven
 * columns: change (before minus after), its standard uncertainty, lower and upper limit at 95 %, change in % of its own
 * flow before, in % of the flow before in the first row, and "significant", "not significant" or, without
 * uncertainties, "cannot be judged". For repairs, tape-and-retest series, and unguarded against guarded tests. Errors
 * common to both tests, such as the flow device's calibration, cancel in the ratio and nearly cancel in the difference.
 * Uncertainties from few readings need their degrees of freedom: without them an unchanged house tested with five
 * readings is called significant in 10 % of pairs instead of 5 %.
 * Equation: D = q_before − q_after; u²(D) = u_before² + u_after², the common part treated separately; significant where
 * |ln(q_before/q_after)| > t·u.
 * Source: JCGM 100:2008 5.1.2, 5.2.2 and G.4.1.
 * @customfunction LEAKAGEDIFFERENCE
 * @param flow_before Flow before, such as q50, in any unit. 0 means blank.
 * @param flow_after Flow after, in the same unit. 0 means blank.
 * @param [uncertainty_before] Standard uncertainty of the flow before, absolute, with everything included. 0 is a value: pass blanks as "".
 * @param [uncertainty_after] Standard uncertainty of the flow after, absolute, with everything included. 0 is a value: pass blanks as "".
 * @param [common_uncertainty] Part that both share, as a fraction of the flow: 0.02 for 2 %. 0 is a value, and a blank means 0.
 * @param [headings] "yes" puts a heading row above.
 * @param [degrees_before] Effective degrees of freedom of uncertainty_before: row "dof" of UNCERTAINTYBUDGET, N − 2 for a fit's standard error. "infinite", 0 or blank: infinite.
 * @param [degrees_after] The same for uncertainty_after. "infinite", 0 or blank: infinite.
 * @returns Seven columns.
 * @core repair/leakage-difference.ts
 * @check authorities/leakage-difference.test.ts
 */
export function leakageDifference(
  flow_before: any[][],
  flow_after: any[][],
  uncertainty_before?: any[][],
  uncertainty_after?: any[][],
  common_uncertainty?: any[][],
  headings?: string | null,
  degrees_before?: any[][],
  degrees_after?: any[][],
): any[][] {
  const inputs = {
    flowBefore: sizes("flow_before", flow_before),
    flowAfter: sizes("flow_after", flow_after),
    before: optional(numbers("uncertainty_before", uncertainty_before)),
    after: optional(numbers("uncertainty_after", uncertainty_after)),
    common: optional(numbers("common_uncertainty", common_uncertainty)),
    degreesBefore: optional(degreesOfFreedom("degrees_before", degrees_before)),
    degreesAfter: optional(degreesOfFreedom("degrees_after", degrees_after)),
  };
  return inCell(() => {
    const whole = firstFlow(flow_before);
    const rows = spread(
      inputs,
      ({ flowBefore, flowAfter, before, after, common = 0, degreesBefore, degreesAfter }) => {
        const both = bothOrNone(before, "uncertainty_before", after, "uncertainty_after");
        const known = both && { before: both[0], after: both[1], common, degreesBefore, degreesAfter };
        const { change, changePercent, uncertainty } = differenceOf(flowBefore, flowAfter, known);
        const ofWhole = whole === undefined ? "" : (100 * change) / whole;
        if (uncertainty === undefined) return [change, "", "", "", changePercent, ofWhole, "cannot be judged"];
        const { standard, lower, upper, isSignificant } = uncertainty;
        const word = isSignificant ? "significant" : "not significant";
        return [change, standard, lower, upper, changePercent, ofWhole, word];
      },
      7,
    );
    const names = ["change", "standard uncertainty", "lower", "upper", "% of before", "% of the first", "significance"];
    return headed(names, rows, wantsHeadings(headings));
  });
}
