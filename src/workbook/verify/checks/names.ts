import { areaOf, findAreaAround, isInside, isSingleCell, type Place, placeKey, type SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatCellValue } from "../../formatting";
import { sentence } from "../../file/problem";

/** Names that refer to an empty cell, or to a cell labelled differently while another cell carries the name's words. */
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
        : (findBetterPlace(review, (candidates ??= listCandidates(view)), target, targets) ??
          findUnreadPlace(view, target, targets));
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

/** A cell further than this ratio from a name's figure holds another quantity. */
const mostRatio = 2;
/** That many names with the same first word describe one block of a sheet. */
const leastOfBlock = 3;

/**
 * The one figure that a name has plainly left: no formula reads it any more. Either it was typed in, its label carries a word of the name, and the
 * name's own cell has no such label at all; or it stands in the block to which every other name with the same first word refers, labelled with the
 * name's further words.
 */
function findUnreadPlace(
  view: Inspector,
  { name, place: own, words }: Target,
  targets: readonly Target[],
): Place | undefined {
  const value = view.readNumber(own);
  const holdsSome = (label: string): boolean => words.some((word) => label.includes(word));
  if (value === undefined || holdsSome(readLabel(view, own))) return undefined;
  const isLabelled = holdsSome(view.labels.readWordsAbove(own).toLowerCase());
  const [first, ...further] = words;
  const kin = targets.filter((other) => other.words[0] === first && other.name !== name).map(({ place }) => place);
  const block = kin.length < leastOfBlock ? undefined : findBlock(kin);
  const isInBlock = (place: Place): boolean =>
    block !== undefined && block.sheet === place.sheet && isInside(block, place.row, place.column);
  const found = view.book.sheets
    .flatMap(({ cells }, sheet) => [...cells.values()].map(({ row, column }): Place => ({ sheet, row, column })))
    .filter((place) => {
      const other = view.readNumber(place);
      if (other === undefined || placeKey(place) === placeKey(own) || view.findOwner(place)) return false;
      const isOfName = isInBlock(place)
        ? !isInBlock(own) && further.length > 0 && holdsAll(readLabel(view, place), further)
        : !isLabelled && view.isTyped(place) && holdsSome(readLabel(view, place));
      return isOfName && other / value < mostRatio && value / other < mostRatio && !isRead(view, place);
    });
  return found.length === 1 ? found[0] : undefined;
}

/** The part of a sheet that cells of the same names fill, two columns wide at most; undefined if they are scattered. */
function findBlock(places: readonly Place[]): SheetArea | undefined {
  const block = findAreaAround(places);
  const isOne = places.every(({ sheet }) => sheet === block.sheet);
  const height = block.bottom - block.top + 1;
  return isOne && block.right - block.left <= 1 && height <= 2 * places.length ? block : undefined;
}

const isRead = (view: Inspector, { sheet, row, column }: Place): boolean =>
  view
    .listFormulaPlaces()
    .some((reader) => view.listPrecedents(reader).some((area) => area.sheet === sheet && isInside(area, row, column)));

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
  const label = view.labels.readWordsBefore(place);
  return {
    kind: "name points elsewhere",
    severity: "warning",
    place: `the name ${name}`,
    what: sentence`The name refers to ${view.formatAddress(place)} (${label === "" ? "without a label" : sentence`“${label}”`}, ${formatCellValue(view.readValue(place))}); the cell labelled with its words is ${view.formatAddress(better)} (“${view.labels.readWordsBefore(better)}”, ${formatCellValue(view.readValue(better))}).`,
    why: "Formulas using the name then compute with a different quantity, and do not look it.",
    todo: "Redefine the name with the cell it describes.",
  };
}
