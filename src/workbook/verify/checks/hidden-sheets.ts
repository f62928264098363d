import { chooseClientView } from "../../issue-copy/client-view";
import { computeFingerprint } from "../../issue-copy/fingerprint";
import { readIssueMark } from "../../issue-copy/mark";
import type { Place } from "../../book/area";
import type { Finding } from "../finding";
import { explainHiding } from "../visible";
import type { Check, Review } from "../review";
import { formatCount, formatList } from "../../formatting";

/** Sheets, rows and columns hidden from the reader. */
export const checkHiddenSheets: Check = (review) => [...findHiddenSheets(review), ...findHiddenCells(review)];

function findHiddenSheets({ book, chain, opened }: Review): Finding[] {
  // An issue copy hides the working papers itself, so that the client's report prints alone; they are there to read.
  const mark = readIssueMark(opened.book);
  const isAsIssued = mark !== undefined && mark.fingerprint === computeFingerprint(opened.book);
  const issued = isAsIssued ? chooseClientView(opened.book, false) : undefined;
  return book.sheets.flatMap(({ name, visibility }, sheet): Finding[] => {
    if (visibility === "visible" || (visibility === "hidden" && issued?.hidesSheet(sheet))) return [];
    const carrying = [...chain.values()].filter((place) => place.sheet === sheet).length;
    return [
      {
        kind: "hidden sheet",
        severity: carrying > 0 || visibility === "veryHidden" ? "warning" : "note",
        place: `the sheet ${name}`,
        what:
          `The sheet is hidden${visibility === "veryHidden" ? " even from Excel's Unhide menu" : ""}; ` +
          `${carrying > 0 ? `the result depends on ${formatCount(carrying, "cell")} of it` : "the result does not depend on it"}.`,
        why: "A reader cannot check what is hidden.",
        todo: "Unhide the sheet and read it.",
      },
    ];
  });
}

function findHiddenCells(review: Review): Finding[] {
  const bySheet = new Map<number, Place[]>();
  for (const place of review.chain.values()) {
    if (explainHiding(review, place) === undefined) continue;
    bySheet.set(place.sheet, [...(bySheet.get(place.sheet) ?? []), place]);
  }
  return [...bySheet.values()].map((places): Finding => {
    const sorted = places.sort((a, b) => a.row - b.row || a.column - b.column);
    const addresses = sorted.map((place) => review.view.formatAddress(place));
    const typed = sorted.filter((place) => review.view.isTyped(place) && (review.view.readNumber(place) ?? 0) !== 0);
    const [first] = typed.map((place) => review.view.formatAddress(place));
    return {
      kind: "hidden cells",
      // A hidden step shows in what it gives; a hidden figure that was typed in shows nowhere.
      severity: review.verdicts.length > 0 && first !== undefined ? "warning" : "note",
      place: addresses[0] ?? "the workbook",
      what: `${formatCount(places.length, "cell")} in hidden rows or columns enter the result (${formatList(addresses)})${first === undefined ? "" : `; ${formatCount(typed.length, "figure")} of them ${typed.length === 1 ? "was" : "were"} typed in, such as ${first}`}.`,
      why: "A hidden step goes unread.",
      todo: "Unhide them and read them.",
    };
  });
}
