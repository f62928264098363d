import { areaOf, placeKey, type Place } from "../../book/area";
import type { Finding } from "../finding";
import { isOfOtherHouse } from "../other-houses";
import type { Check, Review } from "../review";
import { claimsPass, isPassMark, ofHouse, saysFail, saysPass, verdictLabel, verdictWord } from "../verdicts";
import { formatCellValue, showFormula } from "../../formatting";
import { shorten } from "../../file/problem";

/** Verdicts typed in, or shown differently from what the add-in gives. */
export const checkVerdictWords: Check = (review) => {
  const { view } = review;
  const findings: Finding[] = [];
  const words = review.verdicts.flatMap(({ cells }) => cells.map(({ word }) => word));
  const noneSaysPass = words.length > 0 && !words.some(claimsPass);
  const failing = noneSaysPass ? new Map<number, Shown>() : listFailingSheets(review);
  for (const { place, text } of view.listTexts()) {
    const isContradicted = noneSaysPass || (saysPass(text) && view.isTyped(place) && failing.has(place.sheet));
    if (isContradicted && claimsOrMarks(review, place) && isOnItsOwn(review, place)) {
      findings.push(...checkClaim(review, place, failing.get(place.sheet)));
      continue;
    }
    if (!verdictWord.test(text)) continue;
    const formula = view.findCell(place)?.formula;
    const isFixed = view.isTyped(place) || (formula !== undefined && view.listPrecedents(place).length === 0);
    if (isFixed && verdictLabel.test(view.labels.readWordsBefore(place)))
      findings.push(reportTypedVerdict(review, place));
    else if (formula) findings.push(...findShownOtherwise(review, place));
  }
  return findings;
};

/** Whether a cell claims a pass, in words or by a mark beside the label of a verdict. */
function claimsOrMarks({ view }: Review, place: Place): boolean {
  const text = view.readText(place);
  return claimsPass(text) || (isPassMark(text) && verdictLabel.test(view.labels.readWordsBefore(place)));
}

/** A verdict's word and the cell that shows it. */
interface Shown {
  readonly place: Place;
  readonly word: string;
}

/** The sheets that repeat verdicts by formulas, none of which says pass: covers and overviews of a building, one of whose units may well pass. */
function listFailingSheets({ view, verdicts }: Review): Map<number, Shown> {
  const given = new Set(
    verdicts.flatMap(({ call, cells }) => [call.place, ...cells.map(({ place }) => place)]).map(placeKey),
  );
  const repeated = view
    .listTexts()
    .filter(
      ({ place, text }) =>
        verdictWord.test(text) &&
        !given.has(placeKey(place)) &&
        view.findCell(place)?.formula !== undefined &&
        view.dependsOn([areaOf(place)], given),
    );
  const passing = new Set(repeated.filter(({ text }) => saysPass(text)).map(({ place }) => place.sheet));
  return new Map(
    repeated
      .filter(({ place }) => !passing.has(place.sheet))
      .map(({ place, text }) => [place.sheet, { place, word: text }]),
  );
}

/** A word in a list of possible verdicts says nothing about the house. */
function isOnItsOwn({ view }: Review, { sheet, row, column }: Place): boolean {
  const around = [-2, -1, 1, 2].flatMap((step) => [
    { sheet, row: row + step, column },
    { sheet, row, column: column + step },
  ]);
  return !around.some((near) => view.isTyped(near) && saysFail(view.readText(near)));
}

/** Text, typed or from a formula, that claims a pass where no verdict in the workbook does. */
function checkClaim(review: Review, place: Place, against: Shown | undefined): Finding[] {
  const { view, verdicts } = review;
  if (/earlier|previous|last|plan|forecast|expect|example/i.test(view.labels.readWordsBefore(place))) return [];
  const formula = view.findCell(place)?.formula;
  // Text with no verdict or test behind it may be about anything, such as a gauge that passed its check.
  const behind = view.findUpstream([areaOf(place)]);
  const isOfVerdict = verdicts.some(({ call, cells }) =>
    [call.place, ...cells.map((cell) => cell.place)].some((cell) => behind.has(placeKey(cell))),
  );
  const text = view.readText(place);
  const isOfHouse = ofHouse.test(text) || /\b(unit|test|result)\b/i.test(text);
  const isWord = saysPass(text) || isPassMark(text);
  if (!isOfVerdict && !isOfHouse && !(isWord && !formula)) return [];
  if (isOfOtherHouse(review, place)) return [];
  const first = against ?? verdicts.flatMap(({ cells }) => cells)[0];
  const source = formula ? ` (${showFormula(formula.text)})` : "";
  return [
    {
      kind: "verdict misreported",
      severity: isOfVerdict ? "error" : "warning",
      place: view.formatAddress(place),
      what: `${formatCellValue(text)} is shown here${source}, but the verdict in ${first ? view.formatAddress(first.place) : ""} is “${shorten(first?.word ?? "")}”.`,
      why: "The reader is not shown the actual verdict.",
      todo: "Reference the verdict's cell.",
    },
  ];
}

/**
 * Whether a typed verdict can make a house look better: it says pass, and is not on a sheet without any formula, such as a letter, that repeats
 * what every computed verdict says.
 */
function flatters({ view, verdicts }: Review, place: Place): boolean {
  if (!saysPass(view.readText(place))) return false;
  const words = verdicts.flatMap(({ cells }) => cells.map(({ word }) => word));
  const isLetter = !view.listFormulaPlaces().some(({ sheet }) => sheet === place.sheet);
  return !(isLetter && words.length > 0 && words.every(saysPass));
}

function reportTypedVerdict(review: Review, place: Place): Finding {
  const { view } = review;
  return {
    kind: "verdict typed in",
    severity: flatters(review, place) ? "error" : "note",
    place: view.formatAddress(place),
    what: `The verdict ${formatCellValue(view.readText(place))} was typed in; there is no calculation behind it.`,
    why: "It stays the same whatever the readings are.",
    todo: "Compute the verdict with PASSFAIL from the result, the limit and the checks of the test.",
  };
}

/** A cell that rewords the verdict of the only PASSFAIL behind it. */
function findShownOtherwise({ view, verdicts }: Review, place: Place): Finding[] {
  if (verdicts.some(({ call }) => placeKey(call.place) === placeKey(place))) return [];
  const text = view.readText(place);
  const differs = (word: string): boolean => verdictWord.test(word) && saysPass(word) !== saysPass(text);
  if (!verdicts.some(({ cells: [first] }) => first && differs(first.word))) return [];
  const behind = view.findUpstream([areaOf(place)]);
  const sources = verdicts.filter(({ cells }) => cells.some((cell) => behind.has(placeKey(cell.place))));
  const [only] = sources.length === 1 ? (sources[0]?.cells ?? []) : [];
  if (!only || !differs(only.word)) return [];
  return [
    {
      kind: "verdict misreported",
      severity: "error",
      decides: true,
      place: view.formatAddress(place),
      what: `${formatCellValue(text)} is shown here (${showFormula(view.findCell(place)?.formula?.text ?? "")}), but the verdict in ${view.formatAddress(only.place)} is “${shorten(only.word)}”.`,
      why: "The reader is not shown the actual verdict.",
      todo: "Reference the verdict's cell.",
    },
  ];
}
