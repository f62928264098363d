import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { advice, checks, type Check } from "./check-list";
import type { DirectionPlaces } from "./direction";
import { otherAdvice, otherConditions, type Condition } from "./other-checks";

/** Conditions and advice of the two lists that are not a number for each direction. */
const others = { binding: 7, advisory: 5 } as const;

/** How many rows the section takes. */
export const checkRows = 2 + 1 + checks.length + others.binding + advice.length + others.advisory + 1;

/**
 * How many directions must give a result: a formula, for a section that starts at a row. A direction with readings counts even where one would
 * be enough: readings that give an error must not be passed over in silence. Without a criterion both count.
 */
export function neededAt(at: number): string {
  const either = `MAX(1,COUNTIF($D$${at + 2}:$E$${at + 2},"yes"))`;
  return `IFERROR(IF(TargetDirections="either",${either},IF(TargetDirections="depressurization",1,2)),2)`;
}

/** Where the section says whether a direction has readings, "yes" or "no". */
export function testedAt(at: number, which: 0 | 1): string {
  return `$${"DE".charAt(which)}$${at + 2}`;
}

interface CheckPlaces {
  /** The cell that sums up the binding conditions. */
  readonly valid: string;
  /** The same with the number of findings to look into. */
  readonly findings: string;
}

/**
 * Conditions for a verdict as native formulas: "met", "not met", or "open" while something is missing; advisory ones say "look into it".
 */
export function checksSection(
  sheet: Sheet,
  at: number,
  directions: readonly [DirectionPlaces, DirectionPlaces],
): CheckPlaces {
  section(sheet, at, ["B", "G"], "Conditions for a verdict");
  columnHeads(sheet, at + 1, "B", ["<check", "<<limit", "depressurization", "pressurization", "outcome", "<<basis"]);
  const first = at + 2;
  const needed = neededAt(at);
  /** Whether enough directions count by a formula, the one that the criterion names among them. */
  const enough = (count: (cells: string) => string, row: number) =>
    `AND(${count(`D${row}:E${row}`)}>=${needed},OR(IFERROR(TargetDirections,"")<>"depressurization",${count(`D${row}`)}>0))`;
  const countWord = (word: string) => (cells: string) => `COUNTIF(${cells},"${word}")`;
  const countNumbers = (cells: string) => `COUNT(${cells})`;
  const single = `AND(${needed}=1,COUNTIF($D$${first}:$E$${first},"yes")=1)`;

  words(sheet, first, "Directions with readings", "as asked", "criterion");
  directions.forEach(({ readings }, which) => {
    sheet.formula(`${"DE".charAt(which)}${first}`, `IF(COUNTA(${readings})>0,"yes","no")`, native());
  });
  sheet.formula(`F${first}`, `IF(${enough(countWord("yes"), first)},"met","open")`, native());
  let row = first;
  const numeric = ({ label, limit, measured, digits, met, basis }: Check, missing: string, failed: string) => {
    row += 1;
    words(sheet, row, label, limit, basis);
    directions.forEach((direction, which) => {
      sheet.formula(`${"DE".charAt(which)}${row}`, `IFERROR(${measured(direction)},"")`, native(decimals(digits)));
    });
    const judged = `IF(${met(`D${row}:E${row}`)},"met","${failed}")`;
    const outcome = `IF(${enough(countNumbers, row)},${judged},"${missing}")`;
    sheet.formula(`F${row}`, `IFERROR(${outcome},"${missing}")`, native());
  };
  const worded = ({ label, limit, shown, format, outcome, basis }: Condition) => {
    row += 1;
    words(sheet, row, label, limit, basis);
    shown.forEach((formula, which) => {
      if (formula) sheet.formula(`${"DE".charAt(which)}${row}`, formula, native(format));
    });
    sheet.formula(`F${row}`, outcome(`D${row}`, `E${row}`), native());
  };
  for (const check of checks) numeric(check, "open", "not met");
  const binding = otherConditions(directions, (word) => enough(countWord(word), row));
  for (const condition of binding) worded(condition);
  for (const check of advice) numeric(check, "look into it", "look into it");
  const advisory = otherAdvice(directions, single);
  for (const condition of advisory) worded(condition);
  if (binding.length !== others.binding || advisory.length !== others.advisory)
    throw new Error("the section takes another number of rows than it says");

  const outcomes = `F${first}:F${row}`;
  sheet.when(outcomes, `AND(F${first}<>"met",F${first}<>"not tested")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  const last = row + 1;
  const sum = style({ bold: true, top: palette.petrol, align: "right" });
  sheet.put(`B${last}`, "All binding conditions; findings", style({ align: "left" }, sum));
  sheet.paint(`C${last}:E${last}`, sum);
  sheet.formula(
    `F${last}`,
    `IF(COUNTIF(${outcomes},"not met")>0,"not met",IF(COUNTIF(${outcomes},"open")>0,"open","met"))`,
    sum,
  );
  const toLookInto = `COUNTIF(${outcomes},"look into it")`;
  sheet.formula(
    `G${last}`,
    `F${last}&IF(${toLookInto}>0,"; "&${toLookInto}&" to look into","")`,
    style({ align: "left", indent: 1, bold: false, size: 8 }, sum),
  );
  return { valid: `F${last}`, findings: `G${last}` };
}

/** The words of one check. */
function words(sheet: Sheet, row: number, label: string, limit: Check["limit"], basis: string): void {
  sheet.put(`B${row}`, label, looks.label).put(`G${row}`, basis, looks.unit);
  if (typeof limit === "string") sheet.put(`C${row}`, limit, looks.unit);
  else sheet.formula(`C${row}`, limit.formula, looks.unit);
  for (const letter of ["D", "E"]) sheet.put(`${letter}${row}`, null, looks.label);
}
