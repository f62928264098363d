import { columnOf, lettersOf } from "./address";
import type { Sheet } from "./sheet";
import { looks, palette, style } from "./style";

/** The invented firm of every sample workbook; houses, people and readings are invented too. */
export const firm = "Quince & Plover";

export const trade = "Building physics";

interface Letterhead {
  /** A formula that gives the firm's line. */
  readonly brand: string;
  /** A formula that gives the house's name. */
  readonly house: string;
}

/** Every page starts with the firm and the house, as the first sheet has them under these names. */
export const letterhead: Letterhead = {
  // Nothing begins or ends with a space, not even in a form without a firm.
  brand:
    'UPPER(Firm)&IF(OR(Firm="",TradeLine=""),"","   ")&LOWER(TradeLine)&IF(Remark="","",IF(Firm="","","   ")&"("&LOWER(Remark)&")")',
  house: 'IF(House="","",House)',
};

/** The top three rows of a page: letterhead, title, one sentence on what the page is for. */
export function writePageHead(
  sheet: Sheet,
  { brand, house }: Letterhead,
  [left, right]: readonly [left: string, right: string],
  title: string,
  lead: string,
): void {
  sheet.formula(`${left}1`, brand, looks.brand);
  sheet.formula(`${right}1`, house, style({ size: 8, align: "right", colour: palette.grey }));
  sheet.put(`${left}2`, title, looks.title);
  sheet.put(`${left}3`, lead, looks.lead);
  sheet.merge(`${left}3:${right}3`);
  sheet.height(13, 1).height(26, 2).height(14, 3).height(6, 4);
}

/** A heading with a rule across its columns; it may hold subscripts and superscripts. */
export function writeHeading(
  sheet: Sheet,
  row: number,
  [left, right]: readonly [left: string, right: string],
  title: string,
): void {
  sheet.rich(`${left}${row}`, title, looks.heading);
  sheet.paint(`${left}${row}:${right}${row}`, looks.headingRule);
}

/**
 * Column heads from a first column on; each text on one row, or stacked on several ("induced|pressure|Pa"), the last on the rule. A head is
 * set to the right, above its numbers; with "<" before it to the left, with "<<" indented as units are, with "^" centred.
 */
export function writeColumnHeads(sheet: Sheet, lastRow: number, left: string, texts: readonly string[]): void {
  const first = columnOf(left);
  texts.forEach((text, offset) => {
    const letters = lettersOf(first + offset);
    const leftAligned = text.startsWith("<");
    const indent = text.startsWith("<<") ? 1 : 0;
    const lines = text.replace(/^[<^]+/, "").split("|");
    lines.forEach((line, index) => {
      const row = lastRow - lines.length + 1 + index;
      const centred = text.startsWith("^") ? style({ align: "center" }, looks.columnHead) : looks.columnHead;
      const look = leftAligned ? style({ indent }, looks.columnHeadLeft) : centred;
      if (row === lastRow) sheet.put(`${letters}${row}`, line, look);
      else sheet.put(`${letters}${row}`, line, { ...look, border: {} });
    });
  });
}
