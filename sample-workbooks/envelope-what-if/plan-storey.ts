import { call, keepBlanks } from "../blocks/add-in";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, native } from "../blocks/style";
import { between } from "../blocks/validation";
import { at, columnsOf, corners } from "./plan-places";
import { plan } from "./scenario";

/** The corners of one storey with its sides, and the area inside them. */
export function planStorey(sheet: Sheet, index: number): void {
  const [x, y, side] = columnsOf(index);
  const given = plan[index];
  const { first, last } = corners;
  const onwards = (row: number, next: string) => `SQRT((${x}${next}-${x}${row})^2+(${y}${next}-${y}${row})^2)`;
  for (let row = first; row <= last; row++) {
    const corner = given?.corners[row - first];
    sheet.type(`${x}${row}`, corner?.[0] ?? null, decimals(2)).type(`${y}${row}`, corner?.[1] ?? null, decimals(2));
    const home = onwards(row, `$${first}`);
    const length = row === last ? home : `IF(${x}${row + 1}="",${home},${onwards(row, String(row + 1))})`;
    sheet.formula(`${side}${row}`, `IF(COUNT(${x}${row}:${y}${row})<2,"",${length})`, native(decimals(2)));
  }
  const typed = `${x}${first}:${y}${last}`;
  const area = `IF(COUNTA(${typed})=0,"",${call("FLOORAREA", keepBlanks(typed))})`;
  sheet.addIn(`${side}${at.area}`, area, fromAddIn(decimals(2)));
  const perimeter = `IF(${side}${at.area}="","",SUM(${side}${first}:${side}${last}))`;
  sheet.formula(`${side}${at.perimeter}`, perimeter, native(decimals(2)));
  sheet.put(`${side}${at.height}`, given?.height ?? null, input(decimals(2)));
  // An area without its height is not yet a volume; adding 0 keeps an error of the outline an error.
  const times = (row: number) =>
    `IF(${side}${at.area}="","",IF(COUNT(${side}${at.height})=0,NA(),${side}${row}*${side}${at.height}))`;
  sheet.formula(`${side}${at.volume}`, times(at.area), native(decimals(1)));
  sheet.formula(`${side}${at.walls}`, times(at.perimeter), native(decimals(1)));
  sheet.validate(
    between(typed, -200, 200, "Corner, m", "x and y of an inner corner, going round once. Spare rows stay blank."),
    between(`${side}${at.height}`, 1.8, 12, "Height, m", "Floor to floor; the top storey floor to ceiling."),
  );
}
