import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { looks, native, palette, style } from "../blocks/style";
import type { DecidingBudget } from "./deciding-budget";
import type { Runs } from "./direction";
import { ownAdvice } from "./own-advice";
import type { Condition } from "./own-check";
import { ownConditions } from "./own-conditions";
import { sheets } from "./places";
import { validityPlaces } from "./validity";

/** How many rows the section takes, summary included. */
export const checkRows = 2 + 11 + 9 + 2;

interface CheckPlaces {
  /** The cell that sums up this workbook's own binding conditions: "met", "not met" or "open". */
  readonly own: string;
  /** All binding checks, the standard's too, with the number of findings to look into. */
  readonly findings: string;
  /** The first binding check that stands in the way, in words with its sheet; blank where none does. */
  readonly firstInTheWay: string;
}

/**
 * What the standard's own checks do not hold, as native formulas: "met", "not met", or "open" while something is missing; advisory ones say
 * "look into it". Then the sum of both.
 */
export function checksSection(
  sheet: Sheet,
  at: number,
  runs: Runs,
  tested: readonly [string, string],
  budget: DecidingBudget,
): CheckPlaces {
  section(sheet, at, ["B", "H"], "Further conditions of this workbook and of the criterion");
  columnHeads(sheet, at + 1, "B", [
    "<check",
    "<<limit",
    "depressurization",
    "pressurization",
    "outcome",
    "<<basis",
    "",
  ]);
  const either = `MAX(1,COUNTIF($D$${at + 2}:$E$${at + 2},"yes"))`;
  const needed = `IFERROR(IF(TargetDirections="either",${either},IF(TargetDirections="depressurization",1,2)),2)`;
  const both = `$D$${at + 2}:$E$${at + 2}`;
  const enough = `AND(COUNTIF(${both},"yes")>=${needed},OR(IFERROR(TargetDirections,"")<>"depressurization",$D$${at + 2}="yes"))`;
  let row = at + 1;
  const write = ({ label, limit, shown, format, outcome, basis }: Condition) => {
    row += 1;
    sheet.put(`B${row}`, label, looks.label).put(`G${row}`, basis, looks.unit).put(`H${row}`, null, looks.unit);
    if (typeof limit === "string") sheet.put(`C${row}`, limit, looks.unit);
    else sheet.formula(`C${row}`, limit.formula, looks.unit);
    for (const letter of ["D", "E"]) sheet.put(`${letter}${row}`, null, looks.label);
    shown.forEach((formula, which) => {
      if (formula) sheet.formula(`${"DE".charAt(which)}${row}`, formula, native(format));
    });
    sheet.formula(`F${row}`, outcome(`D${row}`, `E${row}`), native());
  };
  const binding = ownConditions(runs, tested, enough);
  const advice = ownAdvice(runs, runs[0].form.units, budget);
  for (const condition of [...binding, ...advice]) write(condition);
  if (row - at - 1 + 4 !== checkRows) throw new Error("the section takes another number of rows than it says");
  const first = at + 2;
  const outcomes = `F${first}:F${row}`;
  sheet.when(outcomes, `AND(F${first}<>"met",F${first}<>"not tested")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  const [own, last] = [row + 1, row + 2];
  const sum = style({ bold: true, top: palette.petrol, align: "right" });
  sheet
    .put(`B${own}`, "Binding conditions of this workbook", style({ align: "left" }, sum))
    .paint(`C${own}:H${own}`, sum);
  const word = (cells: string) =>
    `IF(COUNTIF(${cells},"not met")>0,"not met",IF(COUNTIF(${cells},"open")>0,"open","met"))`;
  sheet.formula(`F${own}`, word(outcomes), sum);
  const { outcomes: judged, weights, symbols } = validityPlaces;
  const standard = (outcome: string) => `COUNTIFS(${weights},"binding",${judged},"${outcome}")`;
  const notMet = `OR(F${own}="not met",${standard("not met")}>0)`;
  const errors = runs.map((run, index) => `AND(COUNTA(${run.readings})>0,ISERROR(${tableOf(index)}))`);
  const open = `OR(F${own}="open",${standard("cannot be judged")}>0,${errors.join(",")})`;
  sheet.put(
    `B${last}`,
    "All binding checks, the standard’s too; findings",
    style({ bold: true, align: "left" }, native()),
  );
  sheet.paint(`C${last}:H${last}`, looks.label);
  sheet.formula(`F${last}`, `IF(${notMet},"not met",IF(${open},"open","met"))`, style({ bold: true }, native()));
  const advisory = `COUNTIFS(${weights},"advisory",${judged},"not met",${symbols},"<>reach_4")`;
  const toLookInto = `(COUNTIF(${outcomes},"look into it")+${advisory})`;
  sheet.formula(
    `G${last}`,
    `F${last}&IF(${toLookInto}>0,"; "&${toLookInto}&" to look into","")`,
    style({ align: "left", indent: 1, size: 8 }, native()),
  );
  const firstInTheWay = firstOf(`F${last}`, { labels: `B${first}:B${row}`, outcomes });
  return { own: `F${own}`, findings: `G${last}`, firstInTheWay };
}

/** Words that name the first check with the outcome that counts: those of this workbook first, then the standard's. */
function firstOf(state: string, own: { readonly labels: string; readonly outcomes: string }): string {
  const { outcomes, weights, labels } = validityPlaces;
  const inStandard = `IF(${state}="open","cannot be judged",${state})`;
  const row = `MATCH(1,INDEX((${weights}="binding")*(${outcomes}=${inStandard}),0),0)`;
  const named = (label: string, sheet: string) => `" First: “"&${label}&"” on the sheet ${sheet}."`;
  const ownName = named(`INDEX(${own.labels},MATCH(${state},${own.outcomes},0))`, sheets.results);
  const standardName = named(`INDEX(${labels},${row})`, sheets.validity);
  return `IF(${state}="met","",IFERROR(${ownName},IFERROR(${standardName},"")))`;
}

/** The first cell of a run's table of checks, which holds the error if there is one. */
function tableOf(index: number): string {
  const [sheet = "", range = ""] = validityPlaces.tables.split("!");
  const [, top = "", bottom = ""] = /\$C\$(\d+):\$K\$(\d+)/.exec(range) ?? [];
  const step = (Number(bottom) - Number(top) + 2) / 4;
  return `${sheet}!$C$${Number(top) + index * step}`;
}
