import { blankTexts } from "../../formula/parse/formula-text";
import type { Check } from "../review";
import { formatCount, formatList, showFormula } from "../../formatting";

/** Values that come from other workbooks. */
export const findExternalLinks: Check = ({ view, state, book }) => {
  const cells: string[] = [];
  let first = "";
  for (const place of view.listFormulaPlaces()) {
    const text = view.findCell(place)?.formula?.text ?? "";
    if (!namesWorkbook(blankTexts(text).replace(/\[\d+\]!_xldudf_/gi, "_xldudf_"))) continue;
    if (cells.length === 0) first = showFormula(text);
    cells.push(view.formatAddress(place));
  }
  const names = book.names.filter(({ text }) => /\[\d+\]/.test(text)).map(({ name }) => `the name ${name}`);
  const places = [...cells, ...names];
  if (places.length === 0 && state.externalLinks === 0) return [];
  return [
    {
      kind: "external link",
      severity: places.length > 0 ? "warning" : "note",
      place: places[0] ?? "the workbook",
      what:
        places.length > 0
          ? `${formatCount(places.length, "place")} read another workbook (${formatList(places)})${first === "" ? "" : `, first ${first}`}.`
          : `The file keeps ${formatCount(state.externalLinks, "link")} to other workbooks, which no formula uses.`,
      why: "The other file's contents are not in this one, and may have changed since.",
      todo: "Ask for the other workbook, or have the value entered with its source.",
    },
  ];
};

/** True if a formula, texts removed, has a workbook in brackets before a sheet, [1]Sheet1!A1 or 'C:\\[b.xlsx]Sheet 1'!A1; a table's name has no such mark before its brackets. */
function namesWorkbook(formula: string): boolean {
  for (const { index } of formula.matchAll(/\[[^[\]]+\][^'[\]]*'?!/g)) {
    let start = index;
    while (start > 0 && !"'[]".includes(formula[start - 1] ?? "")) start -= 1;
    if (formula[start - 1] !== "]" || /[^\p{L}\p{N}_]/u.test(formula.slice(start, index))) return true;
  }
  return false;
}
