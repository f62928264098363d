import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, native, style } from "../blocks/style";
import { checks } from "./check-list";
import type { DirectionPlaces } from "./direction";
import { needed, otherConditions, words } from "./other-checks";

/** How many rows the section takes. */
export const checkRows = 2 + checks.length + 6;

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
  checks.forEach(({ label, limit, measured, digits, met, basis }, index) => {
    const row = first + index;
    words(sheet, row, label, limit, basis);
    directions.forEach((direction, which) => {
      sheet.formula(`${"DE".charAt(which)}${row}`, `IFERROR(${measured(direction)},"")`, native(decimals(digits)));
    });
    const cells = `D${row}:E${row}`;
    sheet.formula(`F${row}`, `IF(COUNT(${cells})<${needed},"open",IF(${met(cells)},"met","not met"))`, native());
  });
  const last = otherConditions(sheet, first + checks.length, directions);
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
