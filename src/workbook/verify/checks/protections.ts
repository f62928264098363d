import type { CellStyle } from "../../file/appearance/cell-styles";
import type { SheetLooks } from "../../file/appearance/sheet-appearance";
import type { Cell } from "../../model";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { readIssueMark } from "../../issue-copy/mark";
import { formatCount } from "../../formatting";

/** A few cells may be unlocked by accident; a form has many. */
const leastUnlocked = 3;

/** The looks of cells, without the one that a cell has if nobody gave it any. */
function listLooks(of: SheetLooks | undefined, cells: Iterable<Cell>): CellStyle[] {
  return [...cells].flatMap(({ row, column }) => {
    const style = of?.styleOf(row, column);
    const isPlain =
      !style || (style.fill === undefined && style.font.bold !== true && Object.keys(style.edges).length === 0);
    return isPlain ? [] : [style];
  });
}

/** Sheets made as forms, in a workbook that protects others, whose own protection is gone. */
export const checkProtections: Check = ({ book, state, chain }) => {
  // The sheet that issuing a copy adds is always protected; it says nothing about the workbook's own.
  const issued = readIssueMark(book)?.sheet;
  const anyProtected = state.sheets.some(({ isProtected }, sheet) => isProtected && sheet !== issued);
  const deciding = new Set([...chain.values()].map(({ sheet }) => sheet));
  /** The looks that the protected sheets give their cells: a sheet made with them was made as they were. */
  const formLooks = new Set<CellStyle>();
  for (const [sheet, { cells }] of book.sheets.entries())
    if (sheet !== issued && state.sheets[sheet]?.isProtected)
      for (const style of listLooks(state.sheets[sheet], cells.values())) formLooks.add(style);
  return book.sheets.flatMap(({ name, cells }, sheet): Finding[] => {
    const of = state.sheets[sheet];
    const all = [...cells.values()];
    const formulas = all.filter(({ formula }) => formula).length;
    const unlocked = all.filter(({ row, column }) => of?.styleOf(row, column).locked === false).length;
    if (!of || of.isProtected || formulas === 0 || (!anyProtected && unlocked < leastUnlocked)) return [];
    // A sheet added to a workbook, such as a letter, never was protected.
    const wasMade = unlocked > 0 || deciding.has(sheet) || listLooks(of, all).some((style) => formLooks.has(style));
    if (!wasMade) return [];
    return [
      {
        kind: "protection removed",
        severity: "warning",
        place: `the sheet ${name}`,
        what: `The sheet is not protected, ${anyProtected ? "though others of the workbook are" : `though ${formatCount(unlocked, "cell")} on it are unlocked for input`}; its ${formatCount(formulas, "formula")} can be overwritten.`,
        why: "Protection is usually removed in order to change a formula.",
        todo: "Compare its formulas with the template's, and restore the protection.",
      },
    ];
  });
};
