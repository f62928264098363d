import { addressOf, boxOf } from "../blocks/address";
import type { CellStyle } from "../blocks/hucre";
import type { Sheet } from "../blocks/sheet";

/**
 * A call whose result fills a range as soon as there is something to compute. Until then it gives a single blank cell, and the file stores that as
 * the reach of its formula, while the cells below and beside it already have their looks.
 */
export function spillingCall(
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
