import { call } from "./add-in";
import { onSheet } from "./address";
import type { Sheet } from "./sheet";
import { looks, palette, style } from "./style";

/** The version of the method behind the results, as the cover states it; blank where the add-in is not there. */
const versionName = "AddInVersion";

const sentence = "This workbook needs the Stillair add-in to calculate.";

interface Cover {
  readonly columns: readonly [left: string, right: string];
  /** A formula that gives the sentence below the title. */
  readonly lead: string;
  /** A cell or a range of results, so that Excel recalculates the version together with them. */
  readonly result: string;
  /** Ranges with formulas that rest on the add-in. */
  readonly waiting: readonly string[];
  /** Whether the sentence gives way to a warning while readings of the example are left in another house. */
  readonly marksExample?: true;
}

/**
 * A cover that is opened without the add-in says so once, below its title, and its results stay blank: half a calculation would read as a bad house.
 * Comes after everything that waits is laid out; gives the cover's names.
 */
export function requireAddIn(sheet: Sheet, { columns: [left, right], lead, result, waiting, marksExample }: Cover) {
  const version = `${right}2`;
  const look = style({ size: 8, format: '"method "@' }, looks.titleRight);
  sheet.addIn(version, `IFERROR(${call("METHODVERSION", result)},"")`, look);
  const stillThere = '"Readings of the example are still on "&ExampleSheets&"."';
  const told = marksExample ? `IF(ExampleSheets="",${lead},${stillThere})` : lead;
  sheet.formula(`${left}3`, withAddIn(told, `"${sentence}"`), looks.lead);
  const isWarning = marksExample ? `OR(${versionName}="",ExampleSheets<>"")` : `${versionName}=""`;
  sheet.when(`${left}3:${right}3`, isWarning, { font: { bold: true, color: { rgb: palette.fail } } });
  for (const range of waiting) sheet.wrapFormulas(range, (formula) => withAddIn(formula));
  return { [versionName]: onSheet(sheet.name, version) };
}

/** A formula that gives something else where the add-in is not there. */
export function withAddIn(formula: string, otherwise = '""'): string {
  return `IF(${versionName}="",${otherwise},${formula})`;
}
