import type { Finding } from "../finding";
import type { Check } from "../review";
import { saysPass } from "../verdicts";
import { formatFigure, formatCellValue } from "../../words";

/** Results above their limit that still pass: because both are rounded first, or because the rule gives the house the benefit of the doubt. */
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
        kind: isRounded ? "verdict depends on rounding" : "verdict depends on its rule",
        severity: isInFormula ? "warning" : "note",
        place: view.formatAddress(call.place),
        what:
          `The result ${formatFigure(value, 6)} exceeds the limit ${formatFigure(limit, 6)} and passes ` +
          (isRounded
            ? `only because it is first rounded to ${formatCellValue(places)} ${places === 1 ? "decimal" : "decimals"}`
            : "only under the guarded rejection rule") +
          (isInFormula ? ", which is written into the verdict’s formula." : "."),
        why: "Whether a house above its limit may pass is for the programme to decide, not the sheet.",
        todo: "State the programme's rule next to the verdict, or judge the unrounded result by simple acceptance.",
      },
    ];
  });
