import { call, quoted } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, style } from "../blocks/style";
import type { DirectionPlaces } from "./direction";

interface VerdictPlaces {
  /** The result that is compared with the limit. */
  readonly deciding: string;
  readonly verdict: string;
  /** One sentence each: the rule, and the directions that count. */
  readonly rule: string;
  readonly directions: string;
  /** What stands in the way of a verdict, and the state of the conditions. */
  readonly state: string;
}

interface Judged {
  readonly valid: string;
  readonly findings: string;
  readonly needed: string;
  /** Cells that say "yes" or "no": whether a direction has readings. */
  readonly tested: readonly [string, string];
}

/** The result that the criterion asks for, the limit, and the verdict with the rule it used; eleven rows. */
export function verdictSection(
  sheet: Sheet,
  at: number,
  [depressurization, pressurization]: readonly [DirectionPlaces, DirectionPlaces],
  { valid, findings, needed, tested }: Judged,
): VerdictPlaces {
  const [criterion, result, limit, validity, verdict, rule, directions, state] = [
    at + 2,
    at + 3,
    at + 4,
    at + 5,
    at + 6,
    at + 7,
    at + 8,
    at + 9,
  ];
  section(sheet, at, ["B", "G"], "Verdict");
  columnHeads(sheet, at + 1, "B", ["", "", "depressurization", "pressurization", "decides", "<<unit"]);

  sheet
    .put(`B${criterion}`, "Criterion, from the sheet Criteria", looks.label)
    .paint(`C${criterion}:E${criterion}`, looks.label);
  sheet.formula(`F${criterion}`, 'IF(TargetName="","no criterion chosen",TargetName)', style({ bold: true }, native()));
  const what = `"Result: "&TargetQuantity&" at "&TargetPressure&" Pa"`;
  sheet.formula(`B${result}`, `IFERROR(${what},"Result")`, looks.label);
  for (const [column, { wholeTest }, which] of [
    ["D", depressurization, 0],
    ["E", pressurization, 1],
  ] as const) {
    const value = `IF(${tested[which]}="no","not tested",${inQuantityOfTarget(wholeTest.value)})`;
    sheet.formula(`${column}${result}`, value, native(decimals(3)));
  }
  const both = `D${result}:E${result}`;
  const one = `IF(AND(${needed}=1,COUNT(${both})=1),IF(ISNUMBER(D${result}),D${result},E${result}),"")`;
  const mean = `IF(COUNT(${both})=2,AVERAGE(${both}),${one})`;
  sheet.formula(
    `F${result}`,
    `IF(TargetDirections="depressurization",D${result},${mean})`,
    style({ bold: true }, native(decimals(3))),
  );
  sheet.formula(`G${result}`, 'IFERROR(TargetUnit,"")', looks.unit);

  sheet
    .put(`B${limit}`, "Limit", looks.label)
    .formula(`F${limit}`, "TargetLimit", native("0.0##"))
    .formula(`G${limit}`, 'IFERROR(TargetUnit,"")', looks.unit);
  sheet
    .put(`B${validity}`, "Conditions for a verdict, from the checks below", looks.label)
    .formula(`F${validity}`, findings, native());
  sheet.put(`B${verdict}`, "Verdict", style({ bold: true, size: 11 }, looks.label));
  sheet.addIn(
    `F${verdict}`,
    call("PASSFAIL", `F${result}`, "TargetLimit", undefined, quoted("plain"), "TargetDecimals", valid),
    style({ bold: true, size: 11 }, fromAddIn()),
  );
  sheet.when(`F${verdict}`, `F${verdict}="pass"`, { font: { bold: true, color: { rgb: palette.pass } } });
  sheet.when(`F${verdict}`, `F${verdict}<>"pass"`, { font: { bold: true, color: { rgb: palette.fail } } });
  const rounding = `IF(IFERROR(TargetDecimals,"")="","the unrounded result","the result, rounded once to "&TargetDecimals&" decimals,")`;
  sheet.formula(
    `B${rule}`,
    `"Rule: plain acceptance (JCGM 106): "&${rounding}&" must not exceed the limit; measurement uncertainty is not counted."`,
    looks.note,
  );
  const counted = `IF(IFERROR(TargetDirections,"")="depressurization","depressurization alone, as the criterion says.",IF(COUNT(${both})=2,"the mean of both directions.",IF(${needed}=1,"one direction alone, which the criterion accepts.","both directions, which are not complete yet.")))`;
  sheet.formula(`B${directions}`, `"What decides: "&${counted}`, looks.note);
  sheet.moreDigitsNear(`F${result}`, `F${limit}`);
  for (const row of [criterion, result, limit, validity, verdict]) sheet.paint(`B${row}:G${row}`, looks.label);
  const errors = [depressurization, pressurization].map(({ direction, wholeTest }, which) => {
    const name = direction.charAt(0).toUpperCase() + direction.slice(1);
    const failed = `AND(${tested[which as 0 | 1]}="yes",NOT(ISNUMBER(${wholeTest.value("q50")})))`;
    return `IF(${failed},"${name} shows an error: see its sheet. ","")`;
  });
  sheet.height(24, state);
  const chosen = `IF(TargetName="","No criterion chosen. ","")`;
  const dated = `IF(COUNT(TestDate)=0,"Day of the test missing. ","")`;
  sheet.formula(
    `B${state}`,
    [chosen, ...errors, dated, '"Conditions for a verdict: "', findings, '"."'].join("&"),
    looks.note,
  );
  for (const row of [rule, directions, state]) sheet.merge(`B${row}:G${row}`);
  return {
    deciding: `F${result}`,
    verdict: `F${verdict}`,
    rule: `B${rule}`,
    directions: `B${directions}`,
    state: `B${state}`,
  };
}

/** The row of the whole test that the chosen criterion limits; #N/A for a quantity or a pressure that no row is for. */
function inQuantityOfTarget(value: (symbol: string) => string): string {
  const leakageArea = `IF(AND(TargetQuantity="leakage area per envelope area",TargetPressure=10),${value("EqLA10")}/EnvelopeArea,NA())`;
  const perFloor = `IF(TargetQuantity="per floor area",${value("qF_pr")},${leakageArea})`;
  const perEnvelope = `IF(TargetQuantity="per envelope area",${value("qE_pr")},${perFloor})`;
  return `IF(TargetQuantity="air change rate",${value("n_pr")},${perEnvelope})`;
}
