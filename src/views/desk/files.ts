import { methodVersion } from "../../core/index";
import {
  collectPatches,
  compareWithStored,
  evaluateBook,
  explainRefusal,
  formatDayOfIssue,
  formatCount,
  formatList,
  issueCopy,
  openWorkbook,
  readIssueMark,
  reviewAsHtml,
  type Verification,
  writeBack,
} from "../../workbook/index";
import type { FileAnswer, TypedChange } from "./answers";
import { type Desktop, requireFile } from "./opened";
import { Refusal } from "./refusal";
import { readTyped, toCellChanges } from "./typed";

const withEnding = (name: string, ending: string): string => name.replace(/\.[^.]*$/, "") + ending;

/** A copy keeps the file's own ending: Excel refuses to open one with macros that is named .xlsx. */
function nameCopy(name: string, what: string): Pick<FileAnswer, "name" | "type"> {
  const hasMacros = /\.xlsm$/i.test(name);
  return {
    name: withEnding(name, ` (${what}).${hasMacros ? "xlsm" : "xlsx"}`),
    type: hasMacros
      ? "application/vnd.ms-excel.sheet.macroEnabled.12"
      : "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  };
}

/** The copy for someone without the add-in; throws a Refusal that says why there is none. */
export function makeIssueCopy(desktop: Desktop): FileAnswer {
  const { name, addIn } = desktop;
  const now = new Date();
  const made = issueCopy(requireFile(desktop), {
    addIn,
    methodVersion,
    issued: formatDayOfIssue(now),
    now,
    keepOldValues: false,
    whole: false,
  });
  if ("reason" in made)
    throw Refusal.told(explainRefusal(made, remedies), made.reason, [formatList(made.cells, mostNamed)]);
  const { mark } = made;
  return {
    ...nameCopy(name, "issued"),
    bytes: made.bytes,
    notes: [
      `${formatCount(mark.formulas.length, "cell")} frozen, listed on the sheet "${made.sheetName}".`,
      `Method version ${mark.methodVersion}, issued on ${mark.issued}.`,
      `Fingerprint ${mark.fingerprint}`,
    ],
  };
}

const recalculateFirst = "save the workbook recalculated first";

const remedies = { "stored values differ": recalculateFirst, "shows #NAME?": recalculateFirst };

const mostNamed = 8;

/** A copy of the workbook with other values typed in and every formula recalculated. */
export function makeChangedCopy(desktop: Desktop, typed: readonly TypedChange[]): FileAnswer {
  const { name, addIn, now } = desktop;
  const opened = requireFile(desktop);
  const { book } = opened;
  const before = evaluateBook(book, { addIn, now });
  const set = readTyped(desktop, typed);
  // Its frozen results would stay beside the changed input.
  if (set.length > 0 && readIssueMark(book)) throw Refusal.of("frozen");
  const after = set.length === 0 ? before : evaluateBook(book, { addIn, now, set: toCellChanges(desktop, set) });
  const patches = collectPatches(
    book,
    after,
    compareWithStored(book, before),
    set.length === 0 ? undefined : { set, before },
  );
  const bytes = writeBack(opened, patches);
  openWorkbook(bytes);
  return {
    ...nameCopy(name, set.length === 0 ? "recalculated" : "what if"),
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
