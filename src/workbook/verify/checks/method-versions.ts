import { readIssueMark } from "../../issue-copy/mark";
import { placeKey } from "../../book/area";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { findStatedVersions } from "../stated-facts";
import { formatList } from "../../formatting";

/** Whether the method version stated in the workbook is the one behind its results. */
export const checkMethodVersions: Check = (review) => [...findTypedVersions(review), ...compareVersions(review)];

const versionText = /^\d+\.\d+\.\d+$/;

/** Versions typed where the calculation should state its own: in a cell so named or so labelled. */
function findTypedVersions(review: Review): Finding[] {
  const { view } = review;
  const [computed] = findStatedVersions(review).map((one) => one.computed);
  if (computed === undefined) return [];
  const named = new Set(
    view.book.names
      .filter(({ name }) => /version/i.test(name))
      .flatMap(({ text, sheet }) => {
        const area = view.findNamedArea(text, sheet);
        return area ? view.listCells(area).map(placeKey) : [];
      }),
  );
  // The sheet that issuing a copy adds names the version of the day it was issued.
  const issued = readIssueMark(review.book)?.sheet;
  return view.listTexts().flatMap(({ place, text }): Finding[] => {
    if (place.sheet === issued) return [];
    const isMethods = () =>
      named.has(placeKey(place)) ||
      /\b(method|add-in|stillair)\b.*\bversion|\bversion\b.*\b(method|add-in|stillair)\b/i.test(
        view.labels.readWordsBefore(place),
      );
    if (!versionText.test(text) || !view.isTyped(place) || !isMethods()) return [];
    return [
      {
        kind: "method version",
        severity: text === computed ? "note" : "warning",
        place: view.formatAddress(place),
        what: `Version ${text} of the calculation method is typed in here; the results are those of ${computed}.`,
        why: "A report that names a version other than the one used cannot be reproduced.",
        todo: "Restore METHODVERSION in this cell.",
      },
    ];
  });
}

function compareVersions(review: Review): Finding[] {
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
}
