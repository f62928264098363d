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
  let candidates: readonly Candidate[] | undefined;
  return book.names.flatMap(({ name, sheet, text }): Finding[] => {
    const words = splitIntoWords(name);
    const area = view.findNamedArea(text, sheet);
    if (name.startsWith("_xlnm.") || !area || !used.has(name.toLowerCase())) return [];
    const isOneCell = isSingleCell(area);
    if (!isOneCell) return [];
    const place = { sheet: area.sheet, row: area.top, column: area.left };
    if (isEmpty(view, place) && !isMeantToBeTyped(review, place)) return [reportEmptyTarget(name, text, view, area)];
    const better =
      words.length < 2 || holdsAll(readLabel(view, place), words)
        ? undefined
        : findBetterPlace(review, (candidates ??= listCandidates(view)), place, words, name);
    return better ? [reportElsewhere(review, name, place, better)] : [];
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

const readLabel = (view: Inspector, place: Place): string => view.labels.readWordsBefore(place).toLowerCase();

const holdsAll = (label: string, words: readonly string[]): boolean => words.every((word) => label.includes(word));

/** A computed cell with its label. */
interface Candidate {
  readonly place: Place;
  readonly isNumber: boolean;
  readonly label: string;
}

const listCandidates = (view: Inspector): Candidate[] =>
  view.listFormulaPlaces().map((place) => ({
    place,
    isNumber: typeof view.readValue(place) === "number",
    label: readLabel(view, place),
  }));

/**
 * A computed number labelled with all the words of the name and not itself derived from it; conclusive only if there is just one.
 * A row in which another number with that label is derived from it has the label for the comparison.
 */
function findBetterPlace(
  { view }: Review,
  all: readonly Candidate[],
  own: Place,
  words: readonly string[],
  name: string,
): Place | undefined {
  const isNumber = typeof view.readValue(own) === "number";
  const candidates = all
    .filter((one) => one.isNumber === isNumber && holdsAll(one.label, words))
    .map(({ place }) => place)
    .filter((place) => placeKey(place) !== placeKey(own));
  const isDerived = (source: Place): boolean => {
    const nodes = view.parseFormulaAt(source)?.precedents ?? [];
    const isNamed = nodes.some((node) => node.type === "name" && node.name.toLowerCase() === name.toLowerCase());
    return isNamed || view.findUpstream([areaOf(source)]).has(placeKey(own));
  };
  const derived = candidates.filter(isDerived);
  const found = candidates.filter(({ sheet, row }) => !derived.some((one) => one.sheet === sheet && one.row === row));
  return found.find((place) => place.sheet === own.sheet) ?? (found.length === 1 ? found[0] : undefined);
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
