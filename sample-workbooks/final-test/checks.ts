import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, native, style } from "../blocks/style";
import { checks } from "./check-list";
import type { DirectionPlaces } from "./direction";
import { directionsNeeded, otherConditions, words } from "./other-checks";

/** How many rows the section takes. */
export const checkRows = 2 + 1 + checks.length + 6;

/** How many directions must give a result: a formula, for a section that starts at a row. */
export function neededAt(at: number): string {
  return directionsNeeded(at + 2);
}

/**
 * Conditions for a verdict as native formulas: "met", "not met", or "open" while something is missing; advisory ones say "look into it".
 * Returns the cell that sums up the binding ones.
 */
export function checksSection(
  sheet: Sheet,
  at: number,
  directions: readonly [DirectionPlaces, DirectionPlaces],
): string {
  section(sheet, at, ["B", "G"], "Conditions for a verdict");
  columnHeads(sheet, at + 1, "B", ["<check", "<<limit", "depressurization", "pressurization", "outcome", "<<basis"]);
  const first = at + 2;
  const needed = neededAt(at);
  words(sheet, first, "Directions with readings", "as asked", "criterion");
  directions.forEach(({ readings }, which) => {
    sheet.formula(`${"DE".charAt(which)}${first}`, `IF(COUNT(${readings})>0,1,0)`, native(decimals(0)));
  });
  sheet.formula(`F${first}`, `IF(D${first}+E${first}>=${needed},"met","open")`, native());
  checks.forEach(({ label, limit, measured, digits, met, basis }, index) => {
    const row = first + 1 + index;
    words(sheet, row, label, limit, basis);
    directions.forEach((direction, which) => {
      sheet.formula(`${"DE".charAt(which)}${row}`, `IFERROR(${measured(direction)},"")`, native(decimals(digits)));
    });
    const cells = `D${row}:E${row}`;
    sheet.formula(`F${row}`, `IF(COUNT(${cells})<${needed},"open",IF(${met(cells)},"met","not met"))`, native());
  });
  const last = otherConditions(sheet, first + 1 + checks.length, directions, needed);
  sheet.when(`F${first}:F${last}`, `F${first}<>"met"`, { font: { bold: true, color: { rgb: palette.fail } } });
  const sum = style({ bold: true, top: palette.petrol, align: "right" });
  sheet
    .put(`B${last + 1}`, "All binding conditions", style({ align: "left" }, sum))
    .paint(`C${last + 1}:G${last + 1}`, sum);
  const outcomes = `F${first}:F${last}`;
  sheet.formula(
    `F${last + 1}`,
    `IF(COUNTIF(${outcomes},"not met")>0,"not met",IF(COUNTIF(${outcomes},"open")>0,"open","met"))`,
    sum,
  );
  return `F${last + 1}`;
}
