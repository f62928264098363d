import { call } from "../blocks/add-in";
import { rowsFrom } from "../blocks/address";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import { withAddIn } from "../blocks/needs-add-in";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, probabilityFormat, style } from "../blocks/style";
import type { Units } from "../blocks/units";
import { anyResult } from "./checks";
import { ofCriterion } from "./criteria";
import type { Runs } from "./run";
import { limitedRow, meanOfDirections, meanOfRuns, numbersOf, runCells, runsFirst } from "./run-results";
import type { DecidingBudget } from "./uncertainty";
import { validityPlaces } from "./validity";

interface VerdictPlaces {
  /** The result that is compared with the limit. */
  readonly deciding: string;
  readonly uncertainty: string;
  /** Limits of the result, on the logarithm as in the budget: the guarded rules go by them. */
  readonly lower: string;
  readonly upper: string;
  readonly probability: string;
  readonly verdict: string;
  /** One sentence each: the rule, and the directions that count. */
  readonly rule: string;
  readonly directions: string;
  /** What stands in the way of a verdict, and the state of the conditions. */
  readonly state: string;
}

interface Judged {
  readonly own: string;
  readonly findings: string;
  readonly advice: string;
  readonly firstInTheWay: string;
  readonly budget: DecidingBudget;
}

/** The result that the criterion asks for, its uncertainty, the limit, and the verdict with the rule it used; fifteen rows. */
export function writeVerdict(sheet: Sheet, at: number, runs: Runs, judged: Judged): VerdictPlaces {
  const {
    criterion,
    result,
    limit,
    uncertainty,
    lower,
    upper,
    probability,
    validity,
    verdict,
    rule,
    directions,
    state,
  } = rowsFrom(
    at + 2,
    "criterion",
    "result",
    "limit",
    "uncertainty",
    "lower",
    "upper",
    "probability",
    "validity",
    "verdict",
    "rule",
    "directions",
    "state",
  );
  const { own, findings, budget } = judged;
  const digits = runs[0].form.units.system === "SI" ? 3 : 4;
  writeHeading(sheet, at, ["B", "H"], "Verdict");
  writeColumnHeads(sheet, at + 1, "B", ["", "", "depressurization", "pressurization", "decides", "", "<<unit"]);
  const put = (at: number, label: string) => sheet.put(`B${at}`, label, looks.label);
  const unit = (at: number) => sheet.formula(`H${at}`, 'IFERROR(TargetUnit,"")', looks.unit);

  put(criterion, "Criterion, from the sheet Criteria");
  sheet.formula(`F${criterion}`, 'IF(TargetName="","no criterion chosen",TargetName)', style({ bold: true }, native()));
  sheet.formula(
    `B${result}`,
    ofCriterion('"Result: "&TargetQuantity&" at "&TargetPressure&" Pa"', '"Result"'),
    looks.label,
  );
  sheet.formula(`D${result}`, meanOfRuns("depressurization", limitedRow), native(decimals(digits)));
  sheet.formula(`E${result}`, meanOfRuns("pressurization", limitedRow), native(decimals(digits)));
  const depressurized = runCells("depressurization", limitedRow);
  const alone = call("AVERAGEDRESULT", numbersOf(depressurized), '""', '"accept"');
  const anyRun = `COUNTIF(${runCells("depressurization", runsFirst)},"yes")>0`;
  sheet.addIn(
    `F${result}`,
    `IF(IFERROR(TargetDirections,"")="depressurization",IF(${anyRun},${alone},""),${meanOfDirections(limitedRow)})`,
    style({ bold: true }, fromAddIn(decimals(digits))),
  );
  unit(result);
  put(limit, "Limit").formula(`F${limit}`, "TargetLimit", native("0.0##"));
  unit(limit);
  put(uncertainty, "Expanded uncertainty U of the result, from the sheet Uncertainty");
  const relative = (share: string) => `IFERROR(IF(COUNT(F${result})=0,"",${share}*F${result}),"")`;
  sheet.formula(`F${uncertainty}`, relative(budget.expanded), native(decimals(digits)));
  unit(uncertainty);
  for (const [end, label, sign] of [
    [lower, "Lower limit of the result, result · exp(−U / result)", "-"],
    [upper, "Upper limit of the result, result · exp(U / result)", ""],
  ] as const) {
    put(end, label);
    const value = `F${result}*EXP(${sign}F${uncertainty}/F${result})`;
    sheet.formula(`F${end}`, `IF(COUNT(F${result},F${uncertainty})<2,"",${value})`, native(decimals(digits)));
    unit(end);
  }
  put(probability, "Probability that the true value meets the limit");
  const conformance = call(
    "CONFORMANCEPROBABILITY",
    `F${result}`,
    relative(budget.standard),
    "TargetLimit",
    budget.freedom,
  );
  sheet.addIn(
    `F${probability}`,
    `IF(COUNT(F${result},F${uncertainty})<2,"",${conformance})`,
    fromAddIn(probabilityFormat),
  );
  put(validity, "Conditions for a verdict, from the sheet Validity and the checks below").formula(
    `F${validity}`,
    findings,
    native(),
  );
  sheet.put(`B${verdict}`, "Verdict", style({ bold: true, size: 11 }, looks.label));
  const isPlain = 'DecisionRule="plain"';
  const decided = call(
    "PASSFAIL",
    `F${result}`,
    "TargetLimit",
    `F${uncertainty}`,
    "DecisionRule",
    `IF(${isPlain},TargetDecimals,"")`,
    validityPlaces.tables,
    undefined,
    resultIsOf(`D${result}`, `E${result}`),
  );
  const anyTable = `COUNTIF(${validityPlaces.weights},"binding")=0`;
  // The checks of the standard are the function's business; this workbook's own conditions come before them.
  sheet.addIn(
    `F${verdict}`,
    withAddIn(`IF(${own}="not met","not valid",IF(OR(${own}="open",${anyTable}),"open",${decided}))`, '"open"'),
    style({ bold: true, size: 11 }, fromAddIn()),
  );
  sheet.when(`F${verdict}`, `F${verdict}="pass"`, { font: { bold: true, color: { rgb: palette.pass } } });
  sheet.when(`F${verdict}`, `AND(F${verdict}<>"pass",F${verdict}<>"open")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  sheet.formula(`B${rule}`, ruleSentence(), looks.note);
  sheet.formula(`B${directions}`, directionsSentence(`D${result}:E${result}`), looks.note);
  for (const near of [result, lower, upper]) sheet.moreDigitsNear(`F${near}`, `F${limit}`);
  for (let labelled = criterion; labelled <= verdict; labelled++) sheet.paint(`B${labelled}:H${labelled}`, looks.label);
  sheet.height(24, rule).height(36, state);
  sheet.formula(`B${state}`, stateSentence(runs, budget, judged), looks.note);
  for (const sentence of [rule, directions, state]) sheet.merge(`B${sentence}:H${sentence}`);
  return {
    deciding: `F${result}`,
    uncertainty: `F${uncertainty}`,
    lower: `F${lower}`,
    upper: `F${upper}`,
    probability: `F${probability}`,
    verdict: `F${verdict}`,
    rule: `B${rule}`,
    directions: `B${directions}`,
    state: `B${state}`,
  };
}

/** What the deciding result is of, so that no direction of it goes unjudged. */
function resultIsOf(depressurized: string, pressurized: string): string {
  const one = `IF(COUNT(${depressurized})=1,"depressurization","pressurization")`;
  const both = `IF(COUNT(${depressurized},${pressurized})=1,${one},"both")`;
  return `IF(IFERROR(TargetDirections,"")="depressurization","depressurization",${both})`;
}

/** The row of the whole test that the chosen criterion limits; #N/A for a quantity or a pressure that no row is for. */
export function limitedQuantity(value: (symbol: string) => string, { areasOfLeakage }: Units): string {
  const perUnits = areasOfLeakage === 1 ? "" : `*${areasOfLeakage}`;
  const leakageArea = `IF(AND(TargetQuantity="leakage area per envelope area",TargetPressure=10),${value("EqLA10")}/EnvelopeArea${perUnits},NA())`;
  const perFloor = `IF(TargetQuantity="per floor area",${value("qF_pr")},${leakageArea})`;
  const perEnvelope = `IF(TargetQuantity="per envelope area",${value("qE_pr")},${perFloor})`;
  return `IF(TargetQuantity="air change rate",${value("n_pr")},${perEnvelope})`;
}

/** The rule in words, as it was applied. */
function ruleSentence(): string {
  const rounding = `IF(IFERROR(TargetDecimals,"")="","the unrounded result","the result, rounded once to "&TargetDecimals&" decimals,")`;
  const plain = `"plain acceptance (JCGM 106): "&${rounding}&" must not exceed the limit; measurement uncertainty is not counted."`;
  const accept =
    '"guarded acceptance (JCGM 106): the upper limit of the result must not exceed the limit of the criterion; it fails where the lower limit of the result exceeds that, and between the two nothing is proven."';
  const reject =
    '"guarded rejection (JCGM 106): it fails only where the lower limit of the result exceeds the limit of the criterion; a pass above it means that exceeding it is not proven."';
  return `"Rule: "&IF(DecisionRule="guarded acceptance",${accept},IF(DecisionRule="guarded rejection",${reject},${plain}))`;
}

/** Which directions count, and how. */
function directionsSentence(both: string): string {
  const either = `IF(COUNT(${both})=1,IF(OneDirection="accept","one direction alone, which is accepted.","both directions, of which one is missing."),"both directions, which are not complete yet.")`;
  return `"What decides: "&IF(IFERROR(TargetDirections,"")="depressurization","depressurization alone, as the criterion says.",IF(COUNT(${both})=2,"the mean of both directions, each the mean of its runs.",${either}))`;
}

/** What is missing or wrong, first things first, and the first check that stands in the way of a verdict. */
function stateSentence(
  runs: Runs,
  budget: DecidingBudget,
  { findings, advice, firstInTheWay }: Pick<Judged, "findings" | "advice" | "firstInTheWay">,
): string {
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
    advice,
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
