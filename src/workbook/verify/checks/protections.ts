import type { Finding } from "../finding";
import type { Check } from "../review";
import { readIssueMark } from "../../issue-copy/mark";
import { formatCount } from "../../formatting";

/** A few cells may be unlocked by accident; a form has many. */
const leastUnlocked = 3;

/** Sheets made as forms, in a workbook that protects others, whose own protection is gone. */
export const checkProtections: Check = ({ book, state }) => {
  // The sheet that issuing a copy adds is always protected; it says nothing about the workbook's own.
  const issued = readIssueMark(book)?.sheet;
  const anyProtected = state.sheets.some(({ isProtected }, sheet) => isProtected && sheet !== issued);
  return book.sheets.flatMap(({ name, cells }, sheet): Finding[] => {
    const of = state.sheets[sheet];
    const all = [...cells.values()];
    const formulas = all.filter(({ formula }) => formula).length;
    const unlocked = all.filter(({ row, column }) => of?.styleOf(row, column).locked === false).length;
    if (!of || of.isProtected || formulas === 0 || (!anyProtected && unlocked < leastUnlocked)) return [];
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
