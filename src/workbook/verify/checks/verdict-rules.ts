import type { Finding } from "../finding";
import type { Check } from "../review";
import { saysPass } from "../verdicts";
import { formatFigure, formatCellValue } from "../../words";

/** Results above their limit that pass all the same: since both are rounded first, or since the rule leaves the doubt to the house. */
export const checkVerdictRules: Check = ({ view, verdicts }) =>
  verdicts.flatMap(({ call, result, target, cells }): Finding[] => {
    const [value, limit] = [result, target].map((argument) =>
      argument ? view.evaluateNode(argument.node, call.place)?.[0] : undefined,
    );
    const [cell] = cells;
    if (typeof value !== "number" || typeof limit !== "number" || !(value > limit * (1 + 1e-9))) return [];
    if (!cell || cells.length !== 1 || !saysPass(cell.word)) return [];
    const [, , , rule, decimals] = call.arguments;
    const [places = null] = decimals ? (view.evaluateNode(decimals.node, call.place) ?? []) : [];
    const isRounded = places !== null && places !== "";
    const chosenBy = isRounded ? decimals : rule;
    const isInFormula = chosenBy !== undefined && chosenBy.areas.length === 0;
    return [
      {
        kind: isRounded ? "verdict hangs on rounding" : "verdict hangs on its rule",
        severity: isInFormula ? "doubtful" : "note",
        place: view.formatAddress(call.place),
        what:
          `The result ${formatFigure(value, 6)} exceeds the limit ${formatFigure(limit, 6)} and passes ` +
          (isRounded
            ? `only since it is rounded to ${formatCellValue(places)} decimals first`
            : "only by the rule of guarded rejection") +
          (isInFormula ? ", which is written into the verdict’s formula." : "."),
        why: "Whether a house above its limit may pass is the programme's decision, not the sheet's.",
        todo: "Name the programme's rule beside the verdict, or let the plain result decide.",
      },
    ];
  });
