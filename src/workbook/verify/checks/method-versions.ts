import type { Check } from "../review";
import { findStatedVersions } from "../stated-facts";
import { formatList } from "../../formatting";

/** Whether the method version stated in the workbook is the one behind its results. */
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
        why: "If no old result is reported, both versions give the same results for these readings.",
        todo: "If a result differs, read what changed between the two versions.",
      },
    ];
  const listPlaces = (version: string) =>
    formatList(stated.filter(({ stored }) => stored === version).map((one) => view.formatAddress(one.place)));
  return [
    {
      kind: "method version",
      severity: "warning",
      place,
      what: `The workbook states more than one version of the calculation method: ${versions.map((version) => `${version} in ${listPlaces(version)}`).join("; ")}.`,
      why: "A report that names a version other than the one used cannot be reproduced; one verdict must not mix results of two versions.",
      todo: "Recalculate the whole workbook with one version, pass METHODVERSION a cell of the results, and see whether any result changes.",
    },
  ];
};
