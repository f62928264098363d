import { call, keepBlanks, quoted, spillingCall } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import { guardedCell, placeIn, tableHeads, tableLook, wholeTestSymbols } from "../blocks/result-tables";
import type { Sheet } from "../blocks/sheet";
import { type Conditions, hasReadings, type RunForm } from "./conditions";
import { sheetOf } from "./places";
import type { SettingsPlaces } from "./settings-block";
import { columns } from "./steps";

const first = 7;

const last = first + wholeTestSymbols.length - 1;

/** A later version of the method may add rows at the end of the table; where a cell is in their way, Excel shows #SPILL! and no result. */
const spareRows = 4;

/** The first row below the table. */
export const belowWholeTest = last + spareRows + 2;

/** Where other sheets find the whole test's rows, each by the row's symbol. */
export interface WholeTestPlaces {
  readonly value: (symbol: string) => string;
  readonly lower: (symbol: string) => string;
  readonly upper: (symbol: string) => string;
}

/** The arguments of the functions that take a whole run, up to the settings, for calls on any sheet. */
export function runArguments({ direction, run }: RunForm, conditions: Conditions): readonly string[] {
  const there = (text: string) =>
    text.replace(/\$[A-Z]+\$\d+:\$[A-Z]+\$\d+/g, (range) => onSheet(sheetOf(direction, run), range));
  const { reading, indicated } = columns;
  const baselines = [conditions.baselineBefore, conditions.baselineAfter].map(keepBlanks);
  return [quoted(direction), ...[reading, indicated, ...baselines].map(there)];
}

/** Which readings take part, for calls on any sheet. */
export function includedRows({ direction, run }: RunForm): string {
  return columns.include.replace(/\$[A-Z]+\$\d+:\$[A-Z]+\$\d+/g, (range) => onSheet(sheetOf(direction, run), range));
}

/** Where the table stands, whichever sheet asks. */
export function wholeTestPlaces({ direction, run }: Pick<RunForm, "direction" | "run">): WholeTestPlaces {
  const sheet = sheetOf(direction, run);
  const pick = (letters: string) => (symbol: string) => {
    const row = first + placeIn(wholeTestSymbols, symbol);
    return guardedCell(symbol, onSheet(sheet, `AA${row}`), onSheet(sheet, `${letters}${row}`));
  };
  return { value: pick("AB"), lower: pick("AC"), upper: pick("AD") };
}

/** The whole test in one call, from the raw readings and the settings. */
export function wholeTestSection(sheet: Sheet, form: RunForm, conditions: Conditions, settings: SettingsPlaces): void {
  section(sheet, 5, ["Z", "AF"], "The whole test in one call, every step a row");
  columnHeads(sheet, 6, "Z", tableHeads);
  const test = call("TESTRESULT", ...runArguments(form, conditions), settings.test, includedRows(form));
  spillingCall(
    sheet,
    `Z${first}:AF${last}`,
    `IF(${hasReadings},${test},"")`,
    (row, column) => tableLook(column, wholeTestSymbols[row] ?? ""),
    form.readings !== undefined,
  );
}
