import { decodePart, decodeText } from "../../file/xml/text";
import type { OpenedWorkbook } from "../../file/open";
import { readRelationships } from "../../file/sheet/relationships";
import { computeFingerprint } from "../../issue-copy/fingerprint";
import { hasLostMark, readIssueMark } from "../../issue-copy/mark";
import type { Check } from "../review";
import { formatCount } from "../../words";

/** Whether a copy that was issued, with what needs the add-in frozen to values, is still as it was issued. */
export const checkIssueCopies: Check = ({ opened }) => {
  const { book } = opened;
  const mark = readIssueMark(book);
  if (hasLostMark(book))
    return [
      {
        kind: "issue copy",
        severity: "wrong",
        place: "the workbook’s names",
        what: "Was an issue copy, but the sheet with its frozen formulas and its fingerprint, or the names by which they are found, are gone.",
        why: "The frozen values can neither be recomputed nor held against what was issued.",
        todo: "Ask the issuer for the copy anew.",
      },
    ];
  if (!mark) return [];
  const place = `the sheet ${book.sheets[mark.sheet]?.name ?? ""}`;
  if (mark.edge === undefined)
    return [
      {
        kind: "issue copy",
        severity: "doubtful",
        place,
        what: `An issue copy (issued on ${mark.issued} by method version ${mark.methodVersion}) whose form of fingerprint this version does not know.`,
        why: "It cannot be told whether the copy is as it was issued; its frozen formulas were not all put back.",
        todo: "Ask the issuer for a copy made by this version, or verify it with the version that made it.",
      },
    ];
  const program = readProgram(opened);
  const comments = countComments(opened);
  const isUnchanged = mark.fingerprint === computeFingerprint(book);
  const issued = `issued on ${mark.issued} by method version ${mark.methodVersion}, ${formatCount(mark.formulas.length, "formula")} frozen to values`;
  return [
    {
      kind: "issue copy",
      severity: isUnchanged ? "note" : "wrong",
      place,
      what: isUnchanged
        ? `An issue copy (${issued}); its fingerprint fits its inputs, results, formulas and names.`
        : `An issue copy (${issued}) that was changed since: its fingerprint does not fit.${program === "" ? "" : ` It was last saved by ${program}.`}`,
      why: isUnchanged
        ? `Readings, results, formulas and names are as they were issued; looks, pictures, hidden rows and comments have no part in it${comments > 0 ? `, so that it cannot be told when ${formatCount(comments, "comment")} of it ${comments === 1 ? "was" : "were"} written` : ""}. A fingerprint is no signature: whoever has this program can make one.`
        : "What the copy says is not what was issued. A program that computes some functions otherwise than Excel changes results too, where it recomputes on opening.",
      todo: isUnchanged
        ? "The frozen formulas were recomputed here like all others; compare with the issuer's own workbook where it matters."
        : "Ask the issuer for the copy anew.",
    },
  ];
};

/** How many cells have a note or a thread of comments; a thread has a note too, for programs that know no threads. */
function countComments({ archive, sheetParts }: OpenedWorkbook): number {
  const parts = sheetParts.flatMap((part) => (part === undefined ? [] : readRelationships(archive, part)));
  let count = 0;
  for (const { kind, target } of parts) {
    if (kind !== "comments" || !archive.findEntry(target)) continue;
    archive.read(target, {
      open(name) {
        if (name === "comment") count++;
      },
      close() {},
    });
  }
  return count;
}

/** The program that saved the file last, as far as the file says so. */
function readProgram({ archive }: OpenedWorkbook): string {
  const name = readRelationships(archive, "").find(({ kind }) => kind === "extended-properties")?.target ?? "";
  if (!archive.findEntry(name)) return "";
  const text = decodePart(archive.readContent(name));
  return decodeText(/<(?:\w+:)?Application>([^<]{1,80})</.exec(text)?.[1] ?? "").trim();
}
