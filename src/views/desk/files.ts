import { methodVersion } from "../../core/index";
import {
  collectPatches,
  compareWithStored,
  evaluateBook,
  formatCount,
  formatList,
  issueCopy,
  type IssueRefusal,
  openWorkbook,
  reviewAsHtml,
  type Verification,
  WorkbookProblem,
  writeBack,
} from "../../workbook/index";
import type { FileAnswer, TypedChange } from "./answers";
import { type Desktop } from "./opened";
import { toCellChange } from "./trials";

const workbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

const withEnding = (name: string, ending: string): string => name.replace(/\.[^.]*$/, "") + ending;

/** The copy for someone without the add-in; throws a WorkbookProblem that says why there is none. */
export function makeIssueCopy({ name, opened, addIn, now }: Desktop, day: string): FileAnswer {
  const made = issueCopy(opened, { addIn, methodVersion, issued: day, now, keepOldValues: false });
  if ("reason" in made) throw new WorkbookProblem("cannot write", explainRefusal(made));
  const { mark } = made;
  return {
    name: withEnding(name, " (issued).xlsx"),
    type: workbookType,
    bytes: made.bytes,
    notes: [
      `${formatCount(mark.formulas.length, "cell")} frozen, listed on the sheet "${made.sheetName}".`,
      `Method version ${mark.methodVersion}, issued on ${mark.issued}.`,
      `Fingerprint ${mark.fingerprint}`,
    ],
  };
}

function explainRefusal({ reason, cells }: IssueRefusal): string {
  const named = formatList(cells, 5);
  switch (reason) {
    case "already issued":
      return "this is already an issue copy; issue the workbook it was made from";
    case "nothing to freeze":
      return "no cell of this workbook needs the add-in";
    case "not evaluated":
      return `${formatCount(cells.length, "cell")} could not be evaluated (${named})`;
    case "stored values differ":
      return `${formatCount(cells.length, "stored value")} differ from what the formulas give (${named}); save the workbook recalculated first`;
    case "shows #NAME?":
      return `the stored value is #NAME?, for lack of the add-in, in ${named}; save the workbook recalculated first`;
  }
}

/** A copy of the workbook with other values typed in and every formula recalculated. */
export function makeChangedCopy(desktop: Desktop, typed: readonly TypedChange[]): FileAnswer {
  const { name, opened, addIn, now } = desktop;
  const { book } = opened;
  const before = evaluateBook(book, { addIn, now });
  const set = typed.map((change) => ({ ...change, value: toCellChange(book, change).value }));
  const after =
    set.length === 0
      ? before
      : evaluateBook(book, { addIn, now, set: typed.map((change) => toCellChange(book, change)) });
  const patches = collectPatches(
    book,
    after,
    compareWithStored(book, before),
    set.length === 0 ? undefined : { set, before },
  );
  const bytes = writeBack(opened, patches);
  openWorkbook(bytes);
  const ending = set.length === 0 ? " (recalculated).xlsx" : " (what if).xlsx";
  return {
    name: withEnding(name, ending),
    type: workbookType,
    bytes,
    notes: [`${formatCount(patches.length, "cell")} changed.`],
  };
}

/** The reviewer's report as a page. */
export function makeFindingsPage(name: string, verification: Verification, now: Date): FileAnswer {
  return {
    name: withEnding(name, " (review).html"),
    type: "text/html",
    bytes: reviewAsHtml([{ file: name, status: "reviewed", verification }], now),
    notes: [],
  };
}
