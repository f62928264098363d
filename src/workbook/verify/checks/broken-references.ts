import { stripFilePrefixes, blankTexts } from "../../formula/parse/formula-text";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { showFormula } from "../../formatting";
import { sentence } from "../../file/problem";

const holdsLostReference = (text: string): boolean => blankTexts(stripFilePrefixes(text)).includes("#REF!");

/** References to cells that were deleted, in formulas and in names. */
export const findBrokenReferences: Check = (review) => [...findInFormulas(review), ...findInNames(review)];

function findInFormulas({ view, isInChain }: Review): Finding[] {
  const found: Finding[] = [];
  for (const place of view.listFormulaPlaces()) {
    const text = view.findCell(place)?.formula?.text ?? "";
    // A formula that tests for a reference, or catches the error, may do so on purpose.
    if (!holdsLostReference(text) || /\b(ISREF|ISERR|ISERROR|ERROR\.TYPE|TYPE|IFERROR)\(/i.test(text)) continue;
    found.push({
      kind: "broken reference",
      // The bare error may be intended, as in a list of Excel's errors.
      severity: isInChain(place) || text.trim() !== "#REF!" ? "error" : "warning",
      place: view.formatAddress(place),
      what: `${showFormula(text)} refers to cells that no longer exist.`,
      why: "The rows, columns or sheet it referred to were deleted; what it read is lost.",
      todo: "Point it to the cells it should read; a neighbouring formula shows which.",
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
        severity: isUsed ? "error" : "note",
        place: `the name ${name}`,
        what: sentence`The name refers to ${text}, cells that no longer exist${isUsed ? ", and formulas use it" : ""}.`,
        why: isUsed ? "Every formula using the name returns an error." : "Nothing uses it; it is a leftover.",
        todo: isUsed ? "Redefine the name with the right cells." : "Delete the name.",
      } as const;
    });
}
