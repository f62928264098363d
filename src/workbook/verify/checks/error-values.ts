import { ErrorValue } from "../../model";
import { placeKey } from "../../book/area";
import { findFilledArea } from "../../book/add-in-calls";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { showFormula } from "../../formatting";

/** Errors that prevent a verdict, or in a book without one a test's results; reported where they originate. */
export const findErrorValues: Check = ({ view, verdicts, runs }) => {
  const goals = (verdicts.length > 0 ? verdicts : runs).map(({ call }) => call);
  const behind = goals
    .filter(({ place }) => view.readValue(place) instanceof ErrorValue)
    .map((call) => view.findUpstream([findFilledArea(view, call)]));
  if (behind.length === 0) return [];
  return view.evaluation.cells.flatMap((cell): Finding[] => {
    if (cell.role !== "formula" || cell.readsError || !cell.outcome.evaluated) return [];
    const { value } = cell.outcome;
    if (!(value instanceof ErrorValue) || !behind.some((chain) => chain.has(placeKey(cell)))) return [];
    const reason = value.reason === "" ? "" : `: ${value.reason}`;
    return [
      {
        kind: "error value",
        severity: "warning",
        place: cell.address,
        what: `${showFormula(view.findCell(cell)?.formula?.text ?? "")} gives ${value.code}${reason}.`,
        why: `There is no ${verdicts.length > 0 ? "verdict" : "result"} until this is fixed.`,
        todo: "Correct what the message names, or fill in what is missing.",
      },
    ];
  });
};
