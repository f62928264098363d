import { ErrorValue, type Area } from "../../model";
import { blankTexts } from "../../formula/parse/formula-text";
import { walkDescendants } from "../../formula/parse/syntax";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { showFormula } from "../../words";
import { sentence } from "../../file/problem";

const prefix = /_xldudf_([a-z0-9]+)_([a-z0-9_.]+)\s*\(/gi;

/** Add-in cells that Excel would show as #NAME?, or cut to one value. */
export const findBoundCells: Check = (review) => {
  const findings: Finding[] = [];
  for (const place of review.view.listFormulaPlaces()) {
    const formula = review.view.findCell(place)?.formula;
    const text = blankTexts(formula?.text ?? "");
    const fault = findFault(review, text, place);
    if (!formula || !fault) continue;
    findings.push({
      kind: "shows #NAME?",
      place: review.view.formatAddress(place),
      why: "A cell that does not reach the add-in shows an error in Excel, or keeps a value from elsewhere.",
      ...fault,
      what: `${fault.what} (${showFormula(formula.text)}).`,
    });
  }
  return findings;
};

type Fault = Pick<Finding, "severity" | "what" | "todo">;

function findFault(
  { view, addIn }: Review,
  text: string,
  place: Parameters<typeof view.findCell>[0],
): Fault | undefined {
  const cell = view.findCell(place);
  const root = view.parseFormulaAt(place)?.root;
  const calls = root ? [...walkDescendants(root)].filter((node) => node.type === "addIn") : [];
  const unknown = calls.find(({ id }) => !addIn.has(id.toUpperCase()));
  const again = "Enter the formula again in Excel with the add-in loaded (F2, Enter).";
  if (unknown) {
    return {
      severity: "wrong",
      what: sentence`The add-in has no function ${unknown.id}`,
      todo: "Use the function's own name.",
    };
  }
  if (calls.some(({ form }) => form === "plain")) {
    return {
      severity: "wrong",
      what: "The call is stored as plain text, not bound to the add-in: it was typed while the add-in was absent",
      todo: again,
    };
  }
  const foreign = [...text.matchAll(prefix)].find(([, space = ""]) => space.toUpperCase() !== "STILLAIR");
  if (foreign) {
    return {
      severity: "doubtful",
      what: sentence`The cell calls another add-in (${foreign[1] ?? ""})`,
      todo: "Ask which add-in it is, and check the value by hand.",
    };
  }
  if (calls.length > 0 && cell?.formula?.dynamic !== true && !fillsArea(cell?.formula?.array)) {
    return {
      severity: "doubtful",
      what: "The call is not stored as a dynamic array, so that Excel shows one value of it only",
      todo: again,
    };
  }
  if (calls.length > 0 && cell?.value instanceof ErrorValue && cell.value.code === "#NAME?") {
    return {
      severity: "wrong",
      what: "The stored value is #NAME?: the file was saved without the add-in",
      todo: again,
    };
  }
  return undefined;
}

/** An array formula with braces fills its area as it stands, if it has one of several cells. */
function fillsArea(area: Area | undefined): boolean {
  return area !== undefined && (area.bottom > area.top || area.right > area.left);
}
