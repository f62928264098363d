import { enScore as scoreOf } from "../../core/index";
import { wantsHeadings } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { headed, numbers, optional, sizes, spread } from "../cells/spread";

/** Coverage factor where none is given: that of most certificates (common practice, no source). */
const usualFactor = 2;

/**
 * Compares two results for the same house by different teams, one row per pair. Five columns: E_n, zeta score ζ,
 * difference in % of the other result, "agree" (|E_n| ≤ 1) or "disagree", and the verdict on ζ: "acceptable" (to 2),
 * "warning signal", "action signal" (from 3). Whatever both share, such as the volume or the flow device, cannot
 * explain a difference: state it, or E_n comes out too small.
 * Equation: E_n = (x − x')/√(U² + U'² − 2·U_k·U_k'); ζ = (x − x')/√(u² + u'² − 2·u_k·u_k'), u = U/k.
 * Source: ISO 13528:2022 9.6 and 9.7, ISO/IEC 17043 (check against your own copy); JCGM 100:2008 5.2.2 for what both
 * share.
 * @customfunction ENSCORE
 * @param result Result of one team, such as n50. 0 means blank.
 * @param expanded_uncertainty Its expanded uncertainty U, in the same unit. 0 means blank.
 * @param other_result Result of the other team or of a reference test, in the same unit. 0 means blank.
 * @param other_expanded_uncertainty Its expanded uncertainty, in the same unit. 0 means blank.
 * @param [common_uncertainty] Standard uncertainty of what both share, as a fraction of the result: 0.02 for 2 %. 0 is a value, and a blank means 0.
 * @param [coverage_factor] Coverage factor k of U: row "t" of UNCERTAINTYBUDGET; 2 if not given. 0 means blank.
 * @param [other_coverage_factor] The same for the other result; 2 if not given. 0 means blank.
 * @param [headings] "yes" puts a heading row above.
 * @returns Five columns.
 * @core judgement/en-score.ts
 * @check authorities/en-score.test.ts
 */
export function enScore(
  result: any[][],
  expanded_uncertainty: any[][],
  other_result: any[][],
  other_expanded_uncertainty: any[][],
  common_uncertainty?: any[][],
  coverage_factor?: any[][],
  other_coverage_factor?: any[][],
  headings?: string | null,
): any[][] {
  const inputs = {
    value: sizes("result", result),
    expanded: sizes("expanded_uncertainty", expanded_uncertainty),
    otherValue: sizes("other_result", other_result),
    otherExpanded: sizes("other_expanded_uncertainty", other_expanded_uncertainty),
    common: optional(numbers("common_uncertainty", common_uncertainty)),
    factor: optional(sizes("coverage_factor", coverage_factor)),
    otherFactor: optional(sizes("other_coverage_factor", other_coverage_factor)),
  };
  return inCell(() => {
    const rows = spread(
      inputs,
      ({ value, expanded, otherValue, otherExpanded, common, factor = usualFactor, otherFactor = usualFactor }) => {
        const { en, zeta, differencePercent, agrees, signal } = scoreOf(
          { value, expandedUncertainty: expanded, coverageFactor: factor },
          { value: otherValue, expandedUncertainty: otherExpanded, coverageFactor: otherFactor },
          common,
        );
        return [en, zeta, differencePercent, agrees ? "agree" : "disagree", signal];
      },
      5,
    );
    return headed(["E_n", "zeta", "difference in %", "agreement", "zeta says"], rows, wantsHeadings(headings));
  });
}
