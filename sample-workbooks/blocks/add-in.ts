import { addressOf, boxOf } from "./address";
import type { CellStyle } from "./hucre";
import type { Sheet } from "./sheet";
import { looks, native } from "./style";

/** The form in which Excel stores a call of this add-in: the dot between namespace and name becomes an underscore. */
const prefix = "_xldudf_STILLAIR_";

/** A call of one of the add-in's functions; a missing argument is left empty between its commas. */
export function call(name: string, ...given: readonly (string | undefined)[]): string {
  return `${prefix}${name}(${given
    .map((argument) => argument ?? "")
    .join(",")
    .replace(/,+$/, "")})`;
}

/**
 * A cell or a range whose blank cells must stay blank: a formula that refers to one would give 0. Some versions of Excel hand a blank cell to an add-in as 0, and where 0 is a reading
 * (baselines, temperatures) that would be a wrong number; "" is blank in every version.
 */
export function keepBlanks(range: string): string {
  return `IF(${range}="","",${range})`;
}

/** A text argument. */
export function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

/** A label and the formula of its value, as a call of the add-in takes its settings: two columns, blanks allowed. */
export type Setting = readonly [label: string, formula: string, format?: string];

/** Writes settings one below the other and gives their range. */
export function writeSettings(
  sheet: Sheet,
  [label, value]: readonly [label: string, value: string],
  first: number,
  settings: readonly Setting[],
): string {
  settings.forEach(([name, formula, format], index) => {
    sheet.put(`${label}${first + index}`, name, looks.label);
    sheet.formula(`${value}${first + index}`, formula, native(format, "left"));
  });
  return `$${label}$${first}:$${value}$${first + settings.length - 1}`;
}

/**
 * A call whose result fills a range as soon as there is something to compute. Until then it gives a single blank cell, and the file stores that as
 * the reach of its formula, while the cells below and beside it already have their looks.
 */
export function writeSpillingCall(
  sheet: Sheet,
  reference: string,
  formula: string,
  look: (row: number, column: number) => CellStyle,
  isFilled: boolean,
): void {
  if (isFilled) {
    sheet.addIn(reference, formula, look);
    return;
  }
  const { top, left, bottom, right } = boxOf(reference);
  for (let row = top; row <= bottom; row++)
    for (let column = left; column <= right; column++)
      sheet.put(addressOf(row, column), null, look(row - top, column - left));
  sheet.addIn(addressOf(top, left), formula, look(0, 0));
}
