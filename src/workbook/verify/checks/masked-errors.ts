import type { Place } from "../../book/area";
import { ErrorValue } from "../../model";

import type { Finding } from "../finding";
import { evaluateProbes } from "../probes";
import type { Check } from "../review";
import { formatCellValue, showFormula } from "../../formatting";

/** IFERROR(calculation, number): with a number in its place, nobody notices the error. */
export const findMaskedErrors: Check = (review) => {
  const { view, isInChain } = review;
  const masks: { place: Place; inner: string; instead: number }[] = [];
  for (const place of view.listFormulaPlaces()) {
    const root = view.parseFormulaAt(place)?.root;
    if (root?.type !== "call" || (root.name !== "IFERROR" && root.name !== "IFNA")) continue;
    const [, fallback] = root.arguments;
    const instead = fallback?.type === "constant" ? fallback.value : undefined;
    const inner = /^(?:_xlfn\.)?(?:IFERROR|IFNA)\((.*),[^,]*\)$/is.exec(view.findCell(place)?.formula?.text ?? "")?.[1];
    if (typeof instead === "number" && inner !== undefined) masks.push({ place, inner, instead });
  }
  const outcomes = evaluateProbes(
    review,
    masks.map(({ place, inner }) => ({ place, text: inner })),
  );
  return masks.flatMap(({ place, instead }, index): Finding[] => {
    const outcome = outcomes[index];
    if (!outcome?.evaluated || !(outcome.value instanceof ErrorValue)) return [];
    const { code, reason } = outcome.value;
    return [
      {
        kind: "masked error",
        severity: isInChain(place) ? "error" : "warning",
        place: view.formatAddress(place),
        what: `${showFormula(view.findCell(place)?.formula?.text ?? "")} hides ${code}${reason === "" ? "" : ` (${reason})`} and gives ${formatCellValue(instead)} instead.`,
        why: "A number that replaces an error is used as if it were measured.",
        todo: "Show the error and fix its cause.",
      },
    ];
  });
};
