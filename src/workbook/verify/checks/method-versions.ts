import type { Check } from "../review";
import { findStatedVersions } from "../stated-facts";
import { formatList } from "../../words";

/** Whether the version of the method that the workbook states is that of its results. */
export const checkMethodVersions: Check = (review) => {
  const { view } = review;
  const stated = findStatedVersions(review);
  const old = stated.filter(({ stored, computed }) => stored !== computed);
  const [first] = old;
  if (!first) return [];
  const place = view.formatAddress(first.place);
  const versions = [...new Set([...old, ...stated].map(({ stored }) => stored))];
  if (versions.length === 1)
    return [
      {
        kind: "method version",
        severity: "note",
        place,
        what: `The workbook states version ${first.stored} of the calculation method; it was recomputed here with ${first.computed}.`,
        why: "Where no old result is reported, both versions give the same for these readings.",
        todo: "Read what changed between the two versions where a result differs.",
      },
    ];
  const listPlaces = (version: string) =>
    formatList(stated.filter(({ stored }) => stored === version).map((one) => view.formatAddress(one.place)));
  return [
    {
      kind: "method version",
      severity: "doubtful",
      place,
      what: `The workbook states more than one version of the calculation method: ${versions.map((version) => `${version} in ${listPlaces(version)}`).join("; ")}.`,
      why: "A report that names another version than its results were computed with cannot be followed; results of two versions do not belong in one verdict.",
      todo: "Calculate the whole workbook with one version, give METHODVERSION a cell of the results, and see whether a result changes.",
    },
  ];
};
