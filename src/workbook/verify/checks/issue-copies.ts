import { decodePart, decodeText } from "../../file/xml/text";
import type { OpenedWorkbook } from "../../file/open";
import { readRelationships } from "../../file/sheet/relationships";
import { computeFingerprint } from "../../issue-copy/fingerprint";
import { hasLostMark, readIssueMark } from "../../issue-copy/mark";
import type { Check } from "../review";
import { formatCount } from "../../formatting";

/** Whether an issue copy, with its add-in formulas frozen to values, is unchanged since issue. */
export const checkIssueCopies: Check = ({ opened }) => {
  const { book } = opened;
  const mark = readIssueMark(book);
  if (hasLostMark(book))
    return [
      {
        kind: "issue copy",
        severity: "error",
        place: "the workbook’s names",
        what: "This was an issue copy, but its sheet of frozen formulas with the fingerprint, or the names that locate it, are gone.",
        why: "The frozen values can neither be recomputed nor compared with what was issued.",
        todo: "Ask the issuer for a fresh copy.",
      },
    ];
  if (!mark) return [];
  const place = `the sheet ${book.sheets[mark.sheet]?.name ?? ""}`;
  if (mark.edge === undefined)
    return [
      {
        kind: "issue copy",
        severity: "warning",
        place,
        what: `An issue copy (issued on ${mark.issued} by method version ${mark.methodVersion}) with a form of fingerprint unknown to this version.`,
        why: "Whether the copy was changed since issue cannot be determined; not all of its frozen formulas were restored.",
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
      severity: isUnchanged ? "note" : "error",
      place,
      what: isUnchanged
        ? `An issue copy (${issued}); its fingerprint matches its inputs, results, formulas and names.`
        : `An issue copy (${issued}) that has been changed since: its fingerprint does not match.${program === "" ? "" : ` It was last saved by ${program}.`}`,
      why: isUnchanged
        ? `Readings, results, formulas and names are as issued; formatting, pictures, hidden rows and comments are not covered${comments > 0 ? `, so its ${formatCount(comments, "comment")} may have been written later` : ""}. A fingerprint is not a signature: anyone with this program can make one.`
        : "What the copy says is not what was issued. A program that computes some functions differently from Excel can also change results if it recomputes on opening.",
      todo: isUnchanged
        ? "The frozen formulas were recomputed here like all others; where it matters, compare with the issuer's own workbook."
        : "Ask the issuer for a fresh copy.",
    },
  ];
};

/** How many cells have a note or threaded comments; a thread also has a note, for programs without threads. */
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

/** The program that last saved the file, if the file says. */
function readProgram({ archive }: OpenedWorkbook): string {
  const name = readRelationships(archive, "").find(({ kind }) => kind === "extended-properties")?.target ?? "";
  if (!archive.findEntry(name)) return "";
  const text = decodePart(archive.readContent(name));
  return decodeText(/<(?:\w+:)?Application>([^<]{1,80})</.exec(text)?.[1] ?? "").trim();
}
