import { areaOf, isSingleCell, type Place, placeKey, type SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatCellValue } from "../../words";
import { sentence } from "../../file/problem";

/** Names that refer to an empty cell, or to a cell labelled differently while another cell carries the name's own words. */
export const checkNames: Check = (review) => {
  const { book, view } = review;
  const used = collectUsedWords(view);
  const labels = new Map<number, string>();
  const readLabelOnce: Labelled = (place) => {
    const key = placeKey(place);
    let label = labels.get(key);
    if (label === undefined) labels.set(key, (label = view.labels.readWordsBefore(place).toLowerCase()));
    return label;
  };
  return book.names.flatMap(({ name, sheet, text }): Finding[] => {
    const words = splitIntoWords(name);
    const area = view.findNamedArea(text, sheet);
    if (name.startsWith("_xlnm.") || !area || !used.has(name.toLowerCase())) return [];
    const isOneCell = isSingleCell(area);
    if (!isOneCell) return [];
    const place = { sheet: area.sheet, row: area.top, column: area.left };
    if (isEmpty(view, place) && !isMeantToBeTyped(review, place)) return [reportEmptyTarget(name, text, view, area)];
    const better =
      words.length < 2 || countMatches(readLabelOnce, place, words) === words.length
        ? undefined
        : findBetterPlace(review, readLabelOnce, place, words, name);
    // In a blank form neither of them has a figure yet.
    return better && [place, better].some((one) => view.readValue(one) !== null && view.readValue(one) !== "")
      ? [reportElsewhere(review, name, place, better)]
      : [];
  });
};

function splitIntoWords(name: string): string[] {
  const parts = name.replace(/([a-z])([A-Z])/g, "$1 $2").split(/[\s_.\d]+/);
  return parts.map((part) => part.toLowerCase()).filter((part) => part.length > 3);
}

function collectUsedWords(view: Inspector): Set<string> {
  const used = new Set<string>();
  for (const place of view.listFormulaPlaces())
    for (const node of view.parseFormulaAt(place)?.precedents ?? [])
      if (node.type === "name") used.add(node.name.toLowerCase());
  return used;
}

const isEmpty = (view: Inspector, place: Place): boolean => {
  const value = view.readValue(place);
  return !view.findCell(place)?.formula && !view.findOwner(place) && (value === null || value === "");
};

/** A blank input cell has simply not been filled in yet. */
function isMeantToBeTyped({ state }: Review, { sheet, row, column }: Place): boolean {
  const style = state.sheets[sheet]?.styleOf(row, column);
  return style?.locked === false || style?.fill !== undefined;
}

/** The label before a cell, in lower case, found once. */
type Labelled = (place: Place) => string;

function countMatches(labelled: Labelled, place: Place, words: readonly string[]): number {
  const label = labelled(place);
  return words.filter((word) => label.includes(word)).length;
}

/**
 * A computed number labelled with all the words of the name and not itself derived from it; conclusive only if there is just one.
 * A row in which another number with that label is derived from it has the label for the comparison.
 */
function findBetterPlace(
  { view }: Review,
  labelled: Labelled,
  own: Place,
  words: readonly string[],
  name: string,
): Place | undefined {
  const isNumber = typeof view.readValue(own) === "number";
  const candidates = [...view.listFormulaPlaces()].filter(
    (source) =>
      placeKey(source) !== placeKey(own) &&
      (typeof view.readValue(source) === "number") === isNumber &&
      countMatches(labelled, source, words) === words.length,
  );
  const isDerived = (source: Place): boolean => {
    const nodes = view.parseFormulaAt(source)?.precedents ?? [];
    const isNamed = nodes.some((node) => node.type === "name" && node.name.toLowerCase() === name.toLowerCase());
    return isNamed || view.findUpstream([areaOf(source)]).has(placeKey(own));
  };
  const derived = candidates.filter(isDerived);
  const found = candidates.filter(({ sheet, row }) => !derived.some((one) => one.sheet === sheet && one.row === row));
  const typed = isNumber && view.isTyped(own) ? listTypedNear(view, own) : [];
  const labelledTyped = typed.filter((place) => countMatches(labelled, place, words) === words.length);
  if (found.length === 0 && labelledTyped.length === 1) return labelledTyped[0];
  return found.find((place) => place.sheet === own.sheet) ?? (found.length === 1 ? found[0] : undefined);
}

const nearby = [-6, -5, -4, -3, -2, -1, 1, 2, 3, 4, 5, 6];

/** Typed figures above and below a cell: a list of limits, say, of which the name means another. */
function listTypedNear(view: Inspector, { sheet, row, column }: Place): Place[] {
  return nearby
    .map((step) => ({ sheet, row: row + step, column }))
    .filter((place) => view.isTyped(place) && view.readNumber(place) !== undefined);
}

function reportEmptyTarget(name: string, text: string, view: Inspector, area: SheetArea): Finding {
  return {
    kind: "name points elsewhere",
    severity: "error",
    place: `the name ${name}`,
    what: sentence`The name refers to ${text}, an empty cell (${view.formatArea(area)}), and formulas use it.`,
    why: "An empty cell counts as 0 or is ignored, without an error.",
    todo: "Redefine the name with the cell it describes.",
  };
}

function reportElsewhere({ view }: Review, name: string, place: Place, better: Place): Finding {
  return {
    kind: "name points elsewhere",
    severity: "warning",
    place: `the name ${name}`,
    what: sentence`The name refers to ${view.formatAddress(place)} (“${view.labels.readWordsBefore(place)}”, ${formatCellValue(view.readValue(place))}); the cell labelled with its words is ${view.formatAddress(better)} (“${view.labels.readWordsBefore(better)}”, ${formatCellValue(view.readValue(better))}).`,
    why: "Formulas using the name then compute with a different quantity, and do not look it.",
    todo: "Redefine the name with the cell it describes.",
  };
}
