import type { Place } from "../book/area";
import { isDateFormat } from "numfmt";
import type { Inspector } from "../book/inspector";
import { headingOf, labelOf } from "./labels";
import { settingOf, type WholeTest } from "./whole-tests";

/** The days on which the book's tests were made: by the setting, by a name, or by the words beside a date. */
export function testDatesIn(view: Inspector, tests: readonly WholeTest[]): number[] {
  const named = view.book.names
    .filter(({ name }) => /^(date_?of_?test|test_?date)$/i.test(name))
    .flatMap(({ text }) => {
      const area = view.areaOfName(text);
      return area ? view.cellsIn(area) : [];
    });
  const labelled = typedDates(view).filter((place) =>
    /\b(test (day|date)|(day|date) of (the )?test)\b/i.test(labelOf(view, place)),
  );
  const set = tests.map((test) => settingOf(view, test, "test date"));
  const numbers = [...[...named, ...labelled].map((place) => view.number(place)), ...set];
  return [...new Set(numbers.filter((value): value is number => typeof value === "number").map(Math.floor))];
}

/** Cells with a typed number that is shown as a day. */
export function typedDates(view: Inspector): Place[] {
  return view.book.sheets.flatMap(({ cells }, sheet) =>
    [...cells.values()].flatMap(({ row, column, value, formula, format }) =>
      typeof value === "number" && !formula && isDateFormat(format) ? [{ sheet, row, column }] : [],
    ),
  );
}

/** What a date is, by the words above it or before it. */
export function wordsOfDate(view: Inspector, place: Place): string {
  const above = headingOf(view, place);
  return /valid|expir|calibrat|certificate|due/i.test(above) ? above : labelOf(view, place);
}
