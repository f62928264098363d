import type { Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import { measureGap, isSame, listResults } from "../compared-tests";
import { isOfOtherHouse } from "../other-houses";
import type { Check } from "../review";
import { formatFigure } from "../../formatting";
import { shorten } from "../../file/problem";

/** Labels for a result, with the symbols of the table rows that hold it. */
const named: readonly (readonly [words: RegExp, symbols: readonly string[]])[] = [
  [/\bn_?50\b|\bach_?50\b|air changes? rate/i, ["n50", "n_pr"]],
  [/\bq_?50\b|\bv_?50\b|air leakage rate/i, ["q50", "q_pr"]],
  [/\bq_?E_?50\b|specific leakage rate|air permeability/i, ["qE50", "qE_pr"]],
  [/^result\b/i, ["n50", "n_pr", "q50", "q_pr", "qE50", "qE_pr", "qF50", "qF_pr"]],
];
/** A figure so labelled is not the result of this test. */
const otherFigure =
  /limit|target|requir|criteri|maxim|allow|design|aim|earlier|previous|before|last|expect|forecast|plan|uncertain|probab|assum|stage|repair/i;
/** Within this, and in the house's favour, a figure is taken for one of the test's results. */
const near = 0.3;
/** A book with more tests than one house needs would compare each figure with too many. */
const mostTests = 8;

/** A typed figure labelled as a result of the test, close to it but below the worst, that matches none: an overwritten cover or table. */
export const findTypedResults: Check = (review) => {
  const { view, runs } = review;
  if (runs.length === 0 || runs.length > mostTests) return [];
  const known = new Map<readonly string[], number[]>();
  const findings: Finding[] = [];
  for (const { place, value } of findTypedFigures(view)) {
    // What follows "±" is another figure in the same cell.
    const label = view.labels.readWordsBefore(place).replace(/\s*±.*$/, "");
    const heading = readHeading(view, place);
    const words = listSymbols(label) ? label : `${label} ${heading}`;
    const symbols = listSymbols(words);
    if (!symbols || otherFigure.test(`${words} ${readColumnWords(view, place)}`)) continue;
    if (!known.has(symbols))
      known.set(
        symbols,
        symbols.flatMap((symbol) => listResults(review, runs, symbol)),
      );
    const finding = judgeFigure(view, place, value, listSymbols(label) ? label : heading, known.get(symbols) ?? []);
    if (finding && !isOfOtherHouse(review, place)) findings.push(finding);
  }
  return findings;
};

const listSymbols = (label: string): readonly string[] | undefined => named.find(([words]) => words.test(label))?.[1];

/** The words just above a figure, as a cover has them over the figure that it shows large. */
function readHeading(view: Inspector, place: Place): string {
  const text = place.row > 0 ? view.readText({ ...place, row: place.row - 1 }) : "";
  // A text that begins with a figure is an entry of its own.
  return /^\d/.test(text) ? "" : text;
}

/** The heading of its column; none in a form, where the cell above is the previous line's value. */
function readColumnWords(view: Inspector, place: Place): string {
  const above = { ...place, row: place.row - 1 };
  return place.row > 0 && view.readText(above) !== "" && view.labels.readWordsBefore(above) !== ""
    ? ""
    : view.labels.readWordsAbove(place);
}

interface TypedFigure {
  readonly place: Place;
  readonly value: number;
}

/** Typed numbers, and numbers at the start of typed text: "0.45 ± 0.02 1/h". A formula without references counts as typed. */
function* findTypedFigures(view: Inspector): Generator<TypedFigure> {
  for (const [sheet, { cells }] of view.book.sheets.entries())
    for (const { row, column, formula } of cells.values()) {
      const place = { sheet, row, column };
      if (!view.isTyped(place) && (!formula || view.listPrecedents(place).length > 0)) continue;
      const [, figure] = /^\s*(\d+[.,]\d+)(?=\s|$)/.exec(view.readText(place)) ?? [];
      const value = figure === undefined ? view.readNumber(place) : Number(figure.replace(",", "."));
      if (value !== undefined && value > 0) yield { place, value };
    }
}

function judgeFigure(
  view: Inspector,
  place: Place,
  value: number,
  label: string,
  results: readonly number[],
): Finding | undefined {
  if (results.length === 0 || results.some((result) => isSame(result, value))) return undefined;
  const closest = results.reduce((best, result) =>
    measureGap(result, value) < measureGap(best, value) ? result : best,
  );
  if (value >= Math.max(...results) || measureGap(closest, value) > near) return undefined;
  return {
    kind: "result typed in",
    severity: "warning",
    place: view.formatAddress(place),
    what: `${formatFigure(value, 6)} is typed in as “${shorten(label)}”, which matches no test result in this workbook; the closest is ${formatFigure(closest, 6)}.`,
    why: "The figure makes the house look better than it was measured.",
    todo: "Restore the formula that fetches the result, or say what the figure is.",
  };
}
