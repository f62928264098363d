import { areaOf, isInside, isSingleCell, type Place } from "../../book/area";
import { readArgument } from "../../book/add-in-calls";
import { listDescendants } from "../../formula/parse/syntax";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { translatePattern } from "../../book/like-formulas";
import { showFormula } from "../../formatting";

/** Formulas that differ between two sheets of the same layout, such as those of the two directions. */
export const checkTwinFormulas: Check = (review) =>
  review.twins.flatMap(({ sheets: [one, other] }) => compareTwins(review, one, other));

function compareTwins(review: Review, one: number, other: number): Finding[] {
  const { view } = review;
  const findings: Finding[] = [];
  for (const place of view.listFormulaPlaces()) {
    if (place.sheet !== one) continue;
    const twin = { ...place, sheet: other };
    if (!view.findCell(twin)?.formula) continue;
    const [here, there] = [translatePattern(view, place, other), translatePattern(view, twin, one)];
    if (here === there) continue;
    const [crosses, twinCrosses] = [here, there].map((pattern) => pattern.includes("<other>"));
    if (crosses !== twinCrosses) {
      const [crossing, counterpart] = crosses ? [place, twin] : [twin, place];
      if (!handsOnItsCounterpart(view, crossing, counterpart) && !takesOtherTable(view, crossing, counterpart.sheet))
        findings.push(reportCrossed(review, crossing, counterpart));
    } else if (listRanges(here) !== listRanges(there)) findings.push(...compareRanges(review, place, twin));
    else if (
      blankShape(here) === blankShape(there) &&
      view.labels.readWordsBefore(place) === view.labels.readWordsBefore(twin) &&
      view.labels.readWordsBefore(place) !== ""
    ) {
      findings.push(reportOtherCells(review, place, twin));
    }
  }
  return findings;
}

const blankShape = (pattern: string): string => pattern.replace(/\{[^}]*\}/g, "{}");

/** The ranges in a pattern, in order, without single cells. */
function listRanges(pattern: string): string {
  return [...pattern.matchAll(/\{[^}]*\}:\{[^}]*\}|\{[rc][^}]*\}/g)].map(([range]) => range).join(" ");
}

/** The cell repeats its counterpart, which holds no measured figure of its own sheet: a volume, say, that both fetch from elsewhere. */
function handsOnItsCounterpart(view: Inspector, place: Place, counterpart: Place): boolean {
  const { sheet, row, column } = counterpart;
  const read = view.listPrecedents(place).filter((area) => area.sheet === sheet);
  const isItself = read.every((area) => isSingleCell(area) && isInside(area, row, column));
  if (!isItself) return false;
  return [...view.findUpstream([areaOf(counterpart)]).values()].every(
    (source) => source.sheet !== sheet || !view.isTyped(source),
  );
}

/** Which argument of UNCERTAINTYBUDGET is the other direction's table. */
const otherDirection = 7;

/** Whether all that a formula reads on the other sheet is the other direction's table, as the budget of a mean takes it. */
function takesOtherTable(view: Inspector, place: Place, other: number): boolean {
  const root = view.parseFormulaAt(place)?.root;
  if (!root) return false;
  const taken = new Set<string>();
  for (const node of listDescendants(root)) {
    const table = node.type === "addIn" && /^uncertaintybudget$/i.test(node.id) ? node.arguments[otherDirection] : null;
    if (table) for (const area of readArgument(view, table, place).areas) taken.add(view.formatArea(area));
  }
  const read = view.listPrecedents(place).filter(({ sheet }) => sheet === other);
  return read.length > 0 && read.every((area) => taken.has(view.formatArea(area)));
}

const showFormulaAt = ({ view }: Review, place: Place): string =>
  showFormula(view.findCell(place)?.formula?.text ?? "");

function reportCrossed(review: Review, place: Place, twin: Place): Finding {
  return {
    kind: "wrong direction's cells",
    severity: "error",
    place: review.view.formatAddress(place),
    what: `${showFormulaAt(review, place)} reads the other direction's sheet; its counterpart ${review.view.formatAddress(twin)} reads its own (${showFormulaAt(review, twin)}).`,
    why: "A direction computed from the other's readings is not an independent measurement.",
    todo: "Point the formula to its own sheet.",
  };
}

/** Nothing here shows which of the two is at fault; the shorter range is the likelier. */
function compareRanges(review: Review, place: Place, twin: Place): Finding[] {
  const measureRead = (at: Place): number =>
    review.view
      .listPrecedents(at)
      .reduce((sum, { top, bottom, left, right }) => sum + (bottom - top + 1) * (right - left + 1), 0);
  const [shorter, longer] = measureRead(place) <= measureRead(twin) ? [place, twin] : [twin, place];
  return [
    {
      kind: "range misses readings",
      severity: review.isInChain(shorter) ? "error" : "warning",
      place: review.view.formatAddress(shorter),
      what: `${showFormulaAt(review, shorter)} reads different ranges from its counterpart ${review.view.formatAddress(longer)} (${showFormulaAt(review, longer)}).`,
      why: "The two directions are then computed from different rows of readings.",
      todo: "Use the same ranges in both.",
    },
  ];
}

function reportOtherCells(review: Review, place: Place, twin: Place): Finding {
  return {
    kind: "formula breaks the pattern",
    severity: "warning",
    place: review.view.formatAddress(place),
    what: `${showFormulaAt(review, place)} and its counterpart ${review.view.formatAddress(twin)}, ${showFormulaAt(review, twin)}, have the same label and read different cells.`,
    why: "One of the two directions is then computed differently.",
    todo: "Decide which of the two is right and copy it to the other.",
  };
}
