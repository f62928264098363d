import { placeKey, type Place } from "../../book/area";
import type { Finding } from "../finding";
import { readShownFigure, formatShown } from "../visible";
import { evaluateProbes } from "../probes";
import type { Check, Review } from "../review";
import { saysPass, type Verdict } from "../verdicts";
import { formatFigure, formatCellValue, showFormula } from "../../formatting";
import { findPassesAboveLimit } from "./verdict-rules";

const kind = "verdict depends on rounding";

/** Results that exceed their limit but are shown, passed to the verdict or judged by it rounded, so that they seem to meet it. */
export const findRoundedVerdict: Check = (review) => [
  ...findRoundedInVerdict(review),
  ...review.verdicts.flatMap((verdict) => {
    const [result, target] = [verdict.result, verdict.target].map(
      (argument) => argument?.area && review.view.listCells(argument.area)[0],
    );
    const limit = target ? review.view.readNumber(target) : verdict.target?.literal;
    if (!result || typeof limit !== "number") return [];
    return [...findShownRounded(review, verdict, result, limit), ...findRoundedBefore(review, result, limit)];
  }),
];

const findRoundedInVerdict = (review: Review): Finding[] =>
  findPassesAboveLimit(review).flatMap(({ decimals, report }) => {
    if (decimals === undefined) return [];
    const to = `${formatCellValue(decimals)} ${decimals === 1 ? "decimal" : "decimals"}`;
    return [report(kind, `only because it is first rounded to ${to}`)];
  });

function findShownRounded(review: Review, verdict: Verdict, result: Place, limit: number): Finding[] {
  const { view } = review;
  const value = view.readNumber(result);
  const isFail = verdict.cells.length > 0 && verdict.cells.every(({ word }) => !saysPass(word));
  if (value === undefined || !isFail || !(value > limit * (1 + 1e-9))) return [];
  const showing = [...findShowingCells(review, value)].map((place) => {
    const format = formatAt(review, place);
    return { place, text: formatShown(value, format), seen: readShownFigure(value, format) };
  });
  const looksMet = showing.filter(({ seen }) => (seen ?? Infinity) <= limit);
  return looksMet.flatMap(({ place, text }): Finding[] => {
    const isOnlyOne = !showing.some((other) => other.place.sheet === place.sheet && !looksMet.includes(other));
    return [
      {
        kind,
        severity: isOnlyOne ? "error" : "note",
        place: view.formatAddress(place),
        what: `The result ${formatFigure(value, 6)} exceeds the limit ${formatFigure(limit, 6)}, but is shown as ${text}${isOnlyOne ? ", the only figure on its sheet" : ""}.`,
        why: "The reader sees a house that meets its limit.",
        todo: "Show the result with one more decimal than the limit.",
      },
    ];
  });
}

/** Cells that hold the result, to the last digit. */
function* findShowingCells({ view }: Review, value: number): Generator<Place> {
  for (const place of view.listFormulaPlaces()) if (view.readValue(place) === value) yield place;
}

/** The cell's number format, or that of a conditional format currently in effect. */
function formatAt(review: Review, place: Place): string {
  const { view, state } = review;
  const rules = (state.sheets[place.sheet]?.rules ?? []).filter(({ areas: [area, ...more], style }) => {
    const isOwn = more.length === 0 && area?.top === place.row && area.left === place.column;
    return isOwn && style.format !== undefined;
  });
  const probes = rules.map(({ formulas }, index) => ({
    place: { sheet: place.sheet, row: 1_000_000 + index, column: 0 },
    text: formulas[0] ?? "",
  }));
  const outcomes = evaluateProbes(review, probes);
  const holds = rules.find((_, index) => {
    const outcome = outcomes[index];
    return outcome?.evaluated === true && outcome.value === true;
  });
  return holds?.style.format ?? view.findCell(place)?.format ?? "General";
}

/** The result is rounded in a formula before the comparison, and the verdict does not say so. */
function findRoundedBefore(review: Review, result: Place, limit: number): Finding[] {
  const { view } = review;
  const owner = view.findOwner(result) ?? result;
  const text = view.findCell(owner)?.formula?.text ?? "";
  const inner = /^(?:ROUND|ROUNDDOWN|TRUNC|FLOOR|MROUND|INT)\((.*?)(?:,\s*-?[\d.]+)?\)$/is.exec(text)?.[1];
  const rounded = view.readNumber(result);
  if (inner === undefined || rounded === undefined || placeKey(owner) !== placeKey(result)) return [];
  const [outcome] = evaluateProbes(review, [{ place: result, text: inner }]);
  const exact = outcome?.evaluated ? outcome.value : undefined;
  if (typeof exact !== "number" || !(exact > limit * (1 + 1e-9)) || rounded > limit) return [];
  return [
    {
      kind,
      severity: "error",
      place: view.formatAddress(result),
      what: `${showFormula(text)} rounds ${formatCellValue(exact)} to ${formatCellValue(rounded)} before comparing it with the limit ${formatFigure(limit, 6)}.`,
      why: "Rounding before the comparison is for the programme to decide, not the sheet.",
      todo: "Pass the unrounded result to the verdict, and use its decimals argument if the programme requires rounding.",
    },
  ];
}
