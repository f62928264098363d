import type { Place } from "../../book/area";
import type { Finding } from "../finding";
import { explainHiding } from "../visible";
import type { Check, Review } from "../review";
import { formatCount, formatList } from "../../words";

/** Sheets, rows and columns that a reader does not see. */
export const checkHiddenSheets: Check = (review) => [...findHiddenSheets(review), ...findHiddenCells(review)];

function findHiddenSheets({ book, chain }: Review): Finding[] {
  return book.sheets.flatMap(({ name, visibility }, sheet): Finding[] => {
    if (visibility === "visible") return [];
    const carrying = [...chain.values()].filter((place) => place.sheet === sheet).length;
    return [
      {
        kind: "hidden sheet",
        severity: carrying > 0 || visibility === "veryHidden" ? "doubtful" : "note",
        place: `the sheet ${name}`,
        what:
          `The sheet is hidden${visibility === "veryHidden" ? " so that Excel's own menu does not list it" : ""}; ` +
          `${carrying > 0 ? `the result rests on ${formatCount(carrying, "cell")} of it` : "the result does not rest on it"}.`,
        why: "What a reader cannot see cannot be checked.",
        todo: "Show the sheet and read it.",
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
    return {
      kind: "hidden cells",
      severity: "note",
      place: addresses[0] ?? "the workbook",
      what: `${formatCount(places.length, "cell")} in hidden rows or columns take part in the result (${formatList(addresses)}).`,
      why: "A step that is not shown is not read.",
      todo: "Show them and read them.",
    };
  });
}
