import { onePointFlow as onePoint } from "../../core/index";
import { rowsOf, wantsHeadings } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { headed, numbers, optional, sizes, spread } from "../cells/spread";
import { invalid } from "../cells/rule-codes";

/** The exponent's columns: n, and perhaps its standard uncertainty. */
function exponentColumns(argument: unknown): [exponent: unknown[][], uncertainty: unknown[][]] {
  const rows = rowsOf(argument);
  const width = rows[0]?.length ?? 0;
  if (rows.some((row) => row.length !== width) || width > 2) {
    throw invalid("exponent", "columns", { columns: "n, or n and its standard uncertainty", got: width });
  }
  return [rows.map((row) => row.slice(0, 1)), width === 2 ? rows.map((row) => row.slice(1)) : []];
}

/**
 * Flow at a reference pressure from one reading, one row per test. Six columns: flow, lower and upper limit at 95 %,
 * standard uncertainty, induced pressure Δp, exponent. The exponent is taken as 0.65 with a standard deviation of 0.057
 * among houses; the limits cover only this, not the instruments.
 * Equation: q_p = q·(p/Δp)^n.
 * Source: ANSI/RESNET/ICC 380, one-point test; ASTM E1827, single-point method; JCGM 100:2008 5.1.2.
 * @customfunction ONEPOINTFLOW
 * @param flow Flow, in any unit; the result is in the same. 0 means blank.
 * @param pressure Pressure difference as read, Pa; signed, indoors minus outdoors, if a baseline is given. 0 means blank.
 * @param [exponent] n, 0.65 if not given; a second column holds its standard uncertainty, 0.057 if not given. In the first 0 means blank, in the second 0 is a value.
 * @param [at] Pressure at which the flow is wanted, Pa; 50 if not given. 0 means blank.
 * @param [baseline] Baseline, Pa, signed like the reading. 0 is a value, and a blank means 0.
 * @param [headings] "yes" puts a heading row above.
 * @returns Six columns.
 * @core results/quick-test.ts
 * @check authorities/quick-tests.test.ts
 */
export function onePointFlow(
  flow: any[][],
  pressure: any[][],
  exponent?: any[][],
  at?: any[][],
  baseline?: any[][],
  headings?: string | null,
): any[][] {
  return inCell(() => {
    const [n, uncertainty] = exponentColumns(exponent);
    const inputs = {
      flow: sizes("flow", flow),
      pressure: sizes("pressure", pressure),
      exponent: optional(sizes("exponent", n)),
      exponentUncertainty: optional(numbers("exponent", uncertainty)),
      at: optional(sizes("at", at)),
      baseline: optional(numbers("baseline", baseline)),
    };
    const rows = spread(
      inputs,
      ({ flow, pressure, ...terms }) => {
        const result = onePoint(flow, pressure, terms);
        const { lower, upper, standardUncertainty, inducedPressure, exponent } = result;
        return [result.flow, lower, upper, standardUncertainty, inducedPressure, exponent];
      },
      6,
    );
    const names = ["flow", "lower", "upper", "standard uncertainty", "induced pressure, Pa", "exponent"];
    return headed(names, rows, wantsHeadings(headings));
  });
}
