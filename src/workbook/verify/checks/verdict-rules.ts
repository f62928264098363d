import type { Inspector } from "../../book/inspector";
import type { CellValue } from "../../model";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { saysPass } from "../verdicts";
import { formatFigure } from "../../formatting";

/** Results above their limit that still pass, because the rule gives the house the benefit of the doubt. */
export const checkVerdictRules: Check = (review) =>
  findPassesAboveLimit(review).flatMap(({ decimals, report }) =>
    decimals === undefined ? [report("verdict depends on its rule", "only under the guarded rejection rule")] : [],
  );

interface PassAboveLimit {
  /** To how many decimals result and limit are rounded first; undefined if they are not. */
  readonly decimals: CellValue | undefined;
  readonly report: (kind: Finding["kind"], how: string) => Finding;
}

/** Every result above its limit that PASSFAIL lets pass: by rounding it first, or by its rule. */
export function findPassesAboveLimit({ view, verdicts }: Review): PassAboveLimit[] {
  return verdicts.flatMap(({ call, result, target, cells }): PassAboveLimit[] => {
    const [value, limit] = [result, target].map((argument) =>
      argument ? view.evaluateNode(argument.node, call.place)?.[0] : undefined,
    );
    const [cell] = cells;
    if (typeof value !== "number" || typeof limit !== "number" || !(value > limit * (1 + 1e-9))) return [];
    if (!cell || cells.length !== 1 || !saysPass(cell.word)) return [];
    const [, , , rule, places] = call.arguments;
    const [typed = null] = places ? (view.evaluateNode(places.node, call.place) ?? []) : [];
    const decimals = typed === null || typed === "" ? undefined : typed;
    const chosenBy = decimals === undefined ? rule : places;
    const isInFormula = chosenBy !== undefined && chosenBy.areas.length === 0;
    const report = (kind: Finding["kind"], how: string): Finding => ({
      kind,
      severity: isInFormula || (decimals !== undefined && !statesRounding(view, limit)) ? "warning" : "note",
      place: view.formatAddress(call.place),
      what:
        `The result ${formatFigure(value, 6)} exceeds the limit ${formatFigure(limit, 6)} and passes ${how}` +
        (isInFormula ? ", which is written into the verdict’s formula." : "."),
      why: "Whether a house above its limit may pass is for the programme to decide, not the sheet.",
      todo: "State the programme's rule next to the verdict, or judge the unrounded result by simple acceptance.",
    });
    return [{ decimals, report }];
  });
}

const rounding =
  /(?<!\p{L})(rounded|rounding|gerundet|arrondie?|redondead[oa]|arrotondat[oa]|afgerond|zaokrągl\p{L}*)(?!\p{L})/iu;

/** Whether a row that holds the limit as typed, that of its programme, also says that the result is rounded. */
function statesRounding(view: Inspector, limit: number): boolean {
  const stating = view.listTexts().filter(({ place, text }) => rounding.test(text) && view.isTyped(place));
  return stating.some(({ place: { sheet, row } }) =>
    [...(view.book.sheets[sheet]?.cells.values() ?? [])].some(
      (cell) => cell.row === row && !cell.formula && cell.value === limit,
    ),
  );
}
