import { ErrorValue, type Area } from "../../model";
import { blankTexts } from "../../formula/parse/formula-text";
import type { Place } from "../../book/area";
import { type Node, listDescendants } from "../../formula/parse/syntax";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { showFormula } from "../../formatting";
import { sentence } from "../../file/problem";

const prefix = /_xldudf_([a-z0-9]+)_([a-z0-9_.]+)\s*\(/gi;

/** Add-in cells that Excel would show as #NAME?, or truncate to one value. */
export const findUnboundCalls: Check = (review) => {
  const findings: Finding[] = [];
  for (const place of review.view.listFormulaPlaces()) {
    const formula = review.view.findCell(place)?.formula;
    const fault = formula && findFault(review, formula.text, place);
    if (!fault) continue;
    findings.push({
      kind: "shows #NAME?",
      place: review.view.formatAddress(place),
      why: "A cell that cannot call the add-in shows an error in Excel, or keeps an old value.",
      ...fault,
      what: `${fault.what} (${showFormula(formula.text)}).`,
    });
  }
  return findings;
};

const isAddInCall = (node: Node) => node.type === "addIn";

type Fault = Pick<Finding, "severity" | "what" | "todo">;

function findFault({ view, addIn }: Review, text: string, place: Place): Fault | undefined {
  const cell = view.findCell(place);
  const parsed = view.parseFormulaAt(place);
  const calls = parsed && parsed.addInCalls > 0 ? listDescendants(parsed.root).filter(isAddInCall) : [];
  const unknown = calls.find(({ id }) => !addIn.has(id.toUpperCase()));
  const again = "Re-enter the formula in Excel with the add-in loaded (F2, Enter).";
  if (unknown) {
    return {
      severity: "error",
      what: sentence`The add-in has no function ${unknown.id}`,
      todo: "Correct the function's name.",
    };
  }
  if (calls.some(({ form }) => form === "plain")) {
    return {
      severity: "error",
      what: "The call is stored as plain text, not bound to the add-in: it was typed without the add-in loaded",
      todo: again,
    };
  }
  const foreign = [...blankTexts(text).matchAll(prefix)].find(([, space = ""]) => space.toUpperCase() !== "STILLAIR");
  if (foreign) {
    return {
      severity: "warning",
      what: sentence`The cell calls another add-in (${foreign[1] ?? ""})`,
      todo: "Find out which add-in it is, and check the value by hand.",
    };
  }
  if (calls.length > 0 && cell?.formula?.dynamic !== true && !fillsArea(cell?.formula?.array) && isCut(view, place)) {
    return {
      severity: "warning",
      what: "The call is not stored as a dynamic array, so Excel shows only its first value",
      todo: again,
    };
  }
  if (calls.length > 0 && cell?.value instanceof ErrorValue && cell.value.code === "#NAME?") {
    return {
      severity: "error",
      what: "The stored value is #NAME?: the file was saved without the add-in",
      todo: again,
    };
  }
  return undefined;
}

/** Whether the formula gives more than one value where a plain one keeps the first. */
function isCut(view: Review["view"], place: Place): boolean {
  const root = view.parseFormulaAt(place)?.root;
  return root !== undefined && (view.evaluateNode(root, place)?.length ?? 0) > 1;
}

/** A braced array formula fills its own area, provided that spans several cells. */
function fillsArea(area: Area | undefined): boolean {
  return area !== undefined && (area.bottom > area.top || area.right > area.left);
}
