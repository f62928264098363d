import { decisionRules, resultDirections, verdict } from "../../core/index";
import { choice, isBlank, isOmitted, oneOf, onlyCell, plain, rowsOf, wordIn } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { optional, sizes, spread, type Input } from "../cells/spread";
import { isChecksTable, requireJudged } from "./validity/table";
import { invalid, missing } from "../cells/rule-codes";

/** Whether the checks of a test let its result count. A cell that is still blank is open: a verdict is not given on trust. */
type Validity = "valid" | "not valid" | "open";

const validityWords: Record<string, Validity> = {
  valid: "valid",
  met: "valid",
  "not valid": "not valid",
  "not met": "not valid",
  open: "open",
  "cannot be judged": "open",
};

type ResultDirections = (typeof resultDirections)[number];

function validityInput(
  argument: unknown,
  other: unknown,
  of: ResultDirections | undefined,
): Input<Validity | undefined> {
  if (isChecksTable(rowsOf(argument)) || !isOmitted(other)) {
    const tables = { validity: rowsOf(argument), other_validity: rowsOf(other) };
    const validity = requireJudged(tables, of);
    return { name: "validity", rows: [[validity]], read: () => validity, optional: true };
  }
  const read = (cell: unknown, row?: number): Validity | undefined => {
    if (isOmitted(argument)) return undefined;
    if (isBlank(plain(cell, "validity", row))) return "open";
    const word = wordIn(cell, "validity", row);
    if (word === undefined) return "open";
    const known = validityWords[word];
    if (known !== undefined) return known;
    throw invalid("validity", "notOneOf", { given: word, words: Object.keys(validityWords) }, row);
  };
  return { name: "validity", rows: rowsOf(argument), read, optional: true };
}

/** Decimals: a 0 is a blank cell that a host sent as 0, and rounding to whole numbers by mistake would pass a failing house; hence the text "0" for those. */
function decimalsInput(argument: unknown): Input<number> {
  const input = sizes("decimals", argument);
  const asText = (value: unknown) => typeof value === "string" && /^\d$/.test(value.trim());
  const read = (cell: unknown, row?: number) => {
    const value = plain(cell, "decimals", row);
    return asText(value) ? Number(value) : input.read(cell, row);
  };
  return { ...input, read };
}

/**
 * Verdict on a result against an upper limit: "pass", "fail", "not proven" (guarded acceptance only) or "not valid". A
 * result at the limit passes, within a tolerance of 1e-9. Rules: "plain" (result ≤ limit), "guarded acceptance" (upper
 * limit of the result at 95 % ≤ limit), "guarded rejection" (fails only if its lower limit > limit). The limits of the
 * result are those of UNCERTAINTYBUDGET, result·exp(±U/result); result ± U is for the reader only. It judges the number
 * that it is given: the mean of both directions from AVERAGEDRESULT, or one direction where the programme accepts it;
 * the checks of one direction are no verdict on the mean of both. As validity it also takes "met", "not met" and "cannot be judged"; a blank cell counts as open.
 * Equation: result ≤ target (plain), result·exp(U/result) ≤ target (guarded acceptance), result·exp(−U/result) ≤ target
 * (guarded rejection).
 * Source: JCGM 106:2012 8.2 and 8.3, on the logarithm of the result; ASTM E29 for the rounding (once, ties to even).
 * @customfunction PASSFAIL
 * @param result The result, such as n50. 0 means blank.
 * @param target The upper limit, in the same unit. 0 means blank.
 * @param [expanded_uncertainty] U of the result, 95 %, in the same unit: row "expanded" of UNCERTAINTYBUDGET; the guarded rules need it. 0 means blank.
 * @param [rule] "plain" (default), "guarded acceptance" or "guarded rejection".
 * @param [decimals] Decimals to which the programme rounds before comparing; leave out to compare unrounded. 0 means blank; for whole numbers give the text "0".
 * @param [validity] The whole table of VALIDITYCHECKS, or those of both directions one below the other: a binding check "not met" gives "not valid", one that cannot be judged gives #N/A. Or "valid", "not valid" or "open". Leave out to judge the number alone.
 * @param [other_validity] The whole table of the other direction, where it is not below the first.
 * @param [directions] What the result is of: "both" (default, unless the standard asks for one direction), "depressurization" or "pressurization". #N/A where a direction of it has no table.
 * @returns The verdict.
 * @core judgement/verdict.ts numbers.ts
 * @check authorities/e29-rounding.test.ts authorities/conformance.test.ts authorities/published-cells.test.ts
 */
export function passFail(
  result: any[][],
  target: any[][],
  expanded_uncertainty?: any[][],
  rule?: string | null,
  decimals?: any[][],
  validity?: any[][],
  other_validity?: any[][],
  directions?: string | null,
): any[][] {
  return inCell(() => {
    const of = oneOf(onlyCell(directions, "directions"), resultDirections, "directions");
    const inputs = {
      result: sizes("result", result),
      target: sizes("target", target),
      expandedUncertainty: optional(sizes("expanded_uncertainty", expanded_uncertainty)),
      decimals: optional(decimalsInput(decimals)),
      validity: validityInput(validity, other_validity, of),
    };
    const named = choice(rule, decisionRules, "rule", "plain");
    return spread(inputs, ({ result, target, expandedUncertainty, decimals, validity }) => {
      if (validity === "open") throw missing("validity", "testOpen");
      if (validity === "not valid") return "not valid";
      return verdict(result, target, {
        rule: named,
        expandedUncertainty,
        decimals,
      });
    });
  });
}
