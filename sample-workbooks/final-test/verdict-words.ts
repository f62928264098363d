import type { DecidingBudget } from "./deciding-budget";
import type { Runs } from "./direction";
import { anyResult } from "./own-check";

/** The rule in words, as it was applied. */
export function ruleSentence(): string {
  const rounding = `IF(IFERROR(TargetDecimals,"")="","the unrounded result","the result, rounded once to "&TargetDecimals&" decimals,")`;
  const plain = `"plain acceptance (JCGM 106): "&${rounding}&" must not exceed the limit; measurement uncertainty is not counted."`;
  const accept =
    '"guarded acceptance (JCGM 106): the upper limit of the result must not exceed the limit of the criterion; it fails where the lower limit of the result exceeds that, and between the two nothing is proven."';
  const reject =
    '"guarded rejection (JCGM 106): it fails only where the lower limit of the result exceeds the limit of the criterion; a pass above it means that exceeding it is not proven."';
  return `"Rule: "&IF(DecisionRule="guarded acceptance",${accept},IF(DecisionRule="guarded rejection",${reject},${plain}))`;
}

/** Which directions count, and how. */
export function directionsSentence(both: string): string {
  const either = `IF(COUNT(${both})=1,IF(OneDirection="accept","one direction alone, which is accepted.","both directions, of which one is missing."),"both directions, which are not complete yet.")`;
  return `"What decides: "&IF(IFERROR(TargetDirections,"")="depressurization","depressurization alone, as the criterion says.",IF(COUNT(${both})=2,"the mean of both directions, each the mean of its runs.",${either}))`;
}

/** What is missing or wrong, first things first, and the first check that stands in the way of a verdict. */
export function stateSentence(runs: Runs, budget: DecidingBudget, findings: string, firstInTheWay: string): string {
  const errors = runs.map(({ direction, run, readings, wholeTest }) => {
    const name = direction.charAt(0).toUpperCase() + direction.slice(1) + (run === 1 ? "" : `, run ${run},`);
    const failed = `AND(COUNTA(${readings})>0,NOT(ISNUMBER(${wholeTest.value("q50")})))`;
    return `IF(IFERROR(${failed},COUNTA(${readings})>0),"${name} shows an error: see its sheet. ","")`;
  });
  const chosen = `IF(TargetName="","No criterion chosen. ","")`;
  const dated = `IF(COUNT(TestDate)=0,"Day of the test missing. ","")`;
  const complete = 'IFERROR(AND(COUNT(TargetLimit,TargetPressure)=2,TargetQuantity<>""),FALSE)';
  const whole = `IF(OR(TargetName="",${complete}),"","The criterion is not complete on the sheet Criteria. ")`;
  // The budgets are those of the first runs: a result of a second run alone has none.
  const unknown = `IF(AND(${anyResult(runs)},IF(${budget.which}="",TRUE,ISERROR(${budget.expanded}))),"No uncertainty can be given: see the sheet Uncertainty. ","")`;
  return [
    chosen,
    whole,
    ...errors,
    dated,
    unknown,
    '"Conditions for a verdict: "',
    findings,
    '"."',
    firstInTheWay,
  ].join("&");
}
