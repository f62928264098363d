import { fingerprintOf } from "../../issue-copy/fingerprint";
import { readIssueMark } from "../../issue-copy/mark";
import type { Check } from "../review";
import { counted } from "../words";

/** Whether a copy that was issued, with what needs the add-in frozen to values, is still as it was issued. */
export const issueCopies: Check = ({ opened }) => {
  const { book } = opened;
  const mark = readIssueMark(book);
  if (!mark) return [];
  const isUnchanged = mark.fingerprint === fingerprintOf(book);
  const issued = `issued on ${mark.issued} by method version ${mark.methodVersion}, ${counted(mark.formulas.length, "formula")} frozen to values`;
  return [
    {
      kind: "issue copy",
      severity: isUnchanged ? "note" : "wrong",
      place: `the sheet ${book.sheets[mark.sheet]?.name ?? ""}`,
      what: isUnchanged
        ? `An issue copy (${issued}); its fingerprint fits its inputs, results and formulas.`
        : `An issue copy (${issued}) that was changed since: its fingerprint does not fit.`,
      why: isUnchanged
        ? "The copy is as it was issued. A fingerprint is no signature: whoever has this program can make one."
        : "What the copy says is not what was issued.",
      todo: isUnchanged
        ? "The frozen formulas were recomputed here like all others; compare with the issuer's own workbook where it matters."
        : "Ask the issuer for the copy anew.",
    },
  ];
};
