import { areaOf, placeKey, type Place } from "../book-view";
import { upstream } from "../chain";
import type { Finding } from "../finding";
import { labelOf } from "../labels";
import type { Check, Review } from "../review";
import { saysPass } from "../verdicts";
import { shown, shownFormula } from "../words";

const verdictWord = /^(pass(ed)?|fail(ed)?|not valid|not proven)$/i;

/** Verdicts that are typed in, or shown otherwise than the add-in gives them. */
export const verdictWords: Check = (review) => {
  const { view, book } = review;
  const findings: Finding[] = [];
  for (const [sheet, { cells }] of book.sheets.entries()) {
    for (const { row, column, formula } of cells.values()) {
      const place = { sheet, row, column };
      if (!verdictWord.test(view.text(place))) continue;
      const isFixed = view.isTyped(place) || (formula !== undefined && view.precedents(place).length === 0);
      if (isFixed && /verdict/i.test(labelOf(view, place))) findings.push(typedVerdict(review, place));
      else if (formula) findings.push(...shownOtherwise(review, place));
    }
  }
  return findings;
};

function typedVerdict({ view }: Review, place: Place): Finding {
  return {
    kind: "verdict typed in",
    severity: "wrong",
    place: view.address(place),
    what: `The verdict ${shown(view.text(place))} is written in by hand; no calculation is behind it.`,
    why: "It stays whatever the readings say.",
    todo: "Let PASSFAIL give the verdict from the result, the limit and the checks of the test.",
  };
}

/** A cell that repeats the verdict of the one PASSFAIL behind it, in other words. */
function shownOtherwise({ view, verdicts }: Review, place: Place): Finding[] {
  if (verdicts.some(({ call }) => placeKey(call.place) === placeKey(place))) return [];
  const behind = upstream(view, [areaOf(place)]);
  const sources = verdicts.filter(({ cells }) => cells.some((cell) => behind.has(placeKey(cell.place))));
  const [only] = sources.length === 1 ? (sources[0]?.cells ?? []) : [];
  const text = view.text(place);
  if (!only || !verdictWord.test(only.word) || saysPass(only.word) === saysPass(text)) return [];
  return [
    {
      kind: "verdict shown otherwise",
      severity: "wrong",
      place: view.address(place),
      what: `${shown(text)} stands here (${shownFormula(view.cell(place)?.formula?.text ?? "")}), but the verdict in ${view.address(only.place)} is “${only.word}”.`,
      why: "What the reader sees is not the verdict.",
      todo: "Let the cell repeat the verdict as it is.",
    },
  ];
}
