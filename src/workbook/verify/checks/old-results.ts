import { compareWithStored, type Difference } from "../../formula/compare-stored";
import { ErrorValue } from "../../model";
import { isInside } from "../../formula/values/value";
import { areaOf, placeKey, type Place } from "../book-view";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { statedVersions } from "../stated-versions";
import { counted, shown, shownFormula } from "../words";

const mostListed = 25;

/**
 * Stored results that are not what the formulas give. Told of where the trouble begins: at cells whose inputs agree with what they were
 * computed from; those that only follow are counted. The version of the method, and a cell that repeats it, belong to another check.
 */
export const oldResults: Check = (review) => {
  const { view, book, withZeros } = review;
  const versions = statedVersions(review);
  const isVersion = ({ stored, computed }: Difference) =>
    versions.some((one) => one.stored === stored && one.computed === computed);
  const withBlanks = compareWithStored(book, view.evaluation).filter(
    (difference) =>
      !/add-in was absent/.test(difference.reason) && !isErrorAsText(difference) && !isVersion(difference),
  );
  // A file saved by a version of Excel that hands blanks over as 0 is not wrong for that: the check of blank cells tells of it.
  const alsoWithZeros = new Set(compareWithStored(book, withZeros).map(placeKey));
  const differences = withBlanks.filter((difference) => alsoWithZeros.has(placeKey(difference)));
  const differing = new Set(differences.map(placeKey));
  const first = new Map<number, { readonly place: Place; readonly cells: Difference[] }>();
  let following = 0;
  for (const difference of differences) {
    const source = view.owner(difference) ?? difference;
    if (follows(review, source, differing)) {
      following++;
      continue;
    }
    const group = first.get(placeKey(source)) ?? { place: source, cells: [] };
    group.cells.push(difference);
    first.set(placeKey(source), group);
  }
  const groups = [...first.values()];
  const shownGroups = groups.slice(0, mostListed).map((group) => findingOf(review, group, following));
  const rest = groups.length - shownGroups.length;
  return rest > 0 ? [...shownGroups, restOf(rest)] : shownGroups;
};

/** Some programs store an error as its text; the result is the same. */
function isErrorAsText({ stored, computed }: Difference): boolean {
  return computed instanceof ErrorValue && stored === computed.code;
}

function follows({ view }: Review, source: Place, differing: ReadonlySet<number>): boolean {
  const own = view.cell(source)?.formula?.array;
  const filled = own ? { sheet: source.sheet, ...own } : areaOf(source);
  const isFilled = ({ sheet, row, column }: Place): boolean => sheet === filled.sheet && isInside(filled, row, column);
  return view
    .precedents(source)
    .some((area) => view.cellsIn(area).some((place) => differing.has(placeKey(place)) && !isFilled(place)));
}

function findingOf(
  { view }: Review,
  { place, cells }: { place: Place; cells: Difference[] },
  following: number,
): Finding {
  const [{ address, stored, computed } = { address: "", stored: null, computed: null }] = cells;
  const more = cells.length > 1 ? ` (${counted(cells.length, "cell")} of this array differ)` : "";
  const after = following > 0 ? ` ${counted(following, "further cell")} in the workbook follow from such cells.` : "";
  return {
    kind: "old result",
    severity: "wrong",
    place: address,
    what: `The file says ${shown(stored)}; ${shownFormula(view.cell(place)?.formula?.text ?? "")} gives ${shown(computed)} now${more}.${after}`,
    why: "A result that is older than its inputs, or was put there by hand, is not the result of these readings.",
    todo: "Let it be calculated anew, and ask which input was changed after the result was saved.",
  };
}

function restOf(rest: number): Finding {
  return {
    kind: "old result",
    severity: "wrong",
    place: "the workbook",
    what: `${counted(rest, "further formula")} hold results that are not what they give now.`,
    why: "Results older than their inputs are not the results of these readings.",
    todo: "Calculate the workbook anew and compare the two.",
  };
}
