import { areaOf, isSingleCell, type Place, placeKey, type SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatCellValue } from "../../formatting";
import { sentence } from "../../file/problem";

/** Names that refer to an empty cell, or to a cell labelled differently while another cell carries the name's own words. */
export const checkNames: Check = (review) => {
  const { book, view } = review;
  const used = collectUsedWords(view);
  let candidates: readonly Candidate[] | undefined;
  const targets = book.names.flatMap(({ name, sheet, text }): Target[] => {
    const area = view.findNamedArea(text, sheet);
    if (name.startsWith("_xlnm.") || !area || !used.has(name.toLowerCase()) || !isSingleCell(area)) return [];
    const place = { sheet: area.sheet, row: area.top, column: area.left };
    return [{ name, text, area, place, words: splitIntoWords(name) }];
  });
  return targets.flatMap((target): Finding[] => {
    const { name, text, area, place, words } = target;
    if (isEmpty(view, place) && !isMeantToBeTyped(review, place)) return [reportEmptyTarget(name, text, view, area)];
    const better =
      words.length < 2 || holdsAll(readLabel(view, place), words)
        ? undefined
        : findBetterPlace(review, (candidates ??= listCandidates(view)), target, targets);
    return better ? [reportElsewhere(review, name, place, better)] : [];
  });
};

/** A name in use, the one cell that it refers to, and its words. */
interface Target {
  readonly name: string;
  readonly text: string;
  readonly area: SheetArea;
  readonly place: Place;
  readonly words: readonly string[];
}

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

const isBlank = (view: Inspector, place: Place): boolean => (view.readValue(place) ?? "") === "";

const isEmpty = (view: Inspector, place: Place): boolean => {
  return !view.findCell(place)?.formula && !view.findOwner(place) && isBlank(view, place);
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
 * A computed value labelled with all the words of the name and not itself derived from it; conclusive only if there is just one.
 * A row in which another number with that label is derived from it has the label for the comparison; a cell derived from that of another name whose words
 * its label carries too shows what that name means.
 */
function findBetterPlace(
  { view }: Review,
  all: readonly Candidate[],
  { name, place: own, words }: Target,
  targets: readonly Target[],
): Place | undefined {
  // A cell that is not filled yet may hold anything.
  if (isBlank(view, own)) return undefined;
  const isNumber = typeof view.readValue(own) === "number";
  const candidates = all.filter(
    ({ place, ...one }) => one.isNumber === isNumber && holdsAll(one.label, words) && placeKey(place) !== placeKey(own),
  );
  const isDerived = ({ place: source }: Candidate): boolean => {
    const nodes = view.parseFormulaAt(source)?.precedents ?? [];
    const isNamed = nodes.some((node) => node.type === "name" && node.name.toLowerCase() === name.toLowerCase());
    return isNamed || view.findUpstream([areaOf(source)]).has(placeKey(own));
  };
  const isOfOther = ({ place: source, label }: Candidate): boolean => {
    const upstream = view.findUpstream([areaOf(source)]);
    return targets.some(({ place, words: theirs }) => {
      const carried = theirs.length > 1 && holdsAll(label, theirs);
      return carried && placeKey(place) !== placeKey(own) && upstream.has(placeKey(place));
    });
  };
  const derived = candidates.filter(isDerived).map(({ place }) => place);
  const found = candidates
    .filter((one) => {
      const { sheet, row } = one.place;
      return !derived.some((other) => other.sheet === sheet && other.row === row) && !isOfOther(one);
    })
    .map(({ place }) => place);
  const typed = isNumber && view.isTyped(own) ? listTypedNear(view, own) : [];
  const labelledTyped = typed.filter((place) => holdsAll(readLabel(view, place), words));
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
