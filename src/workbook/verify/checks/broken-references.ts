import { stripFilePrefixes, blankTexts } from "../../formula/parse/formula-text";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { showFormula } from "../../words";
import { sentence } from "../../file/problem";

const holdsLostReference = (text: string): boolean => blankTexts(stripFilePrefixes(text)).includes("#REF!");

/** References to cells that were deleted, in formulas and in names. */
export const findBrokenReferences: Check = (review) => [...findInFormulas(review), ...findInNames(review)];

function findInFormulas({ view, isInChain }: Review): Finding[] {
  const found: Finding[] = [];
  for (const place of view.listFormulaPlaces()) {
    const text = view.findCell(place)?.formula?.text ?? "";
    // A formula that asks whether something is a reference, or catches the error, may mean it.
    if (!holdsLostReference(text) || /\b(ISREF|ISERR|ISERROR|ERROR\.TYPE|TYPE|IFERROR)\(/i.test(text)) continue;
    found.push({
      kind: "broken reference",
      // The bare error could be meant, as in a list of Excel's errors.
      severity: isInChain(place) || text.trim() !== "#REF!" ? "wrong" : "doubtful",
      place: view.formatAddress(place),
      what: `${showFormula(text)} refers to cells that no longer exist.`,
      why: "Rows, columns or a sheet were deleted under it; what it read is lost.",
      todo: "Point it to the cells that it should read; a formula beside it shows which.",
    });
  }
  return found;
}

function findInNames({ book }: Review): Finding[] {
  return book.names
    .filter(({ name, text }) => !name.startsWith("_xlnm.") && holdsLostReference(text))
    .map(({ name, text }) => {
      const word = new RegExp(`(?<![\\w.])${name.replace(/[.\\?]/g, "\\$&")}(?![\\w.(])`, "i");
      const isUsed = book.sheets.some(({ cells }) =>
        [...cells.values()].some(({ formula }) => formula && word.test(formula.text)),
      );
      return {
        kind: "broken reference",
        severity: isUsed ? "wrong" : "note",
        place: `the name ${name}`,
        what: sentence`The name stands for ${text}, cells that no longer exist${isUsed ? ", and formulas use it" : ""}.`,
        why: isUsed ? "Every formula that uses the name gives an error." : "Nothing uses it; it is left over.",
        todo: isUsed ? "Let the name stand for the right cells again." : "Delete the name.",
      } as const;
    });
}
