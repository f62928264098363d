import type { CellErrors, ErrorOrigin } from "./errors";
import { counted, indented, listed, shownFormula } from "../shared/words";

/** The cells where errors begin, a line each; gaps that a formula leaves by its own NA() where they are new or other cells fail. */
export function errorLines(
  { origins, count, newGaps }: CellErrors,
  cut: (lines: readonly string[]) => string[],
): string[] {
  const begun = origins.filter(({ kind }) => kind !== "gap");
  const gaps = origins.filter(({ kind }) => kind === "gap").map(({ cell }) => cell);
  if (begun.length === 0 && count === 0 && newGaps === 0) return [];
  const lines = cut(begun.map(lineOf));
  if (gaps.length > 0)
    lines.push(`#N/A on purpose, by a formula's own NA(): ${counted(gaps.length, "cell")} (${listed(gaps, 4)})`);
  return [
    `Errors, where they begin: ${counted(begun.length, "cell")}; ${counted(count, "computed cell")} with an error in all`,
    ...indented(lines),
  ];
}

function lineOf({ cell, error: { code, reason }, kind, why, formula, alsoFilled, alike }: ErrorOrigin): string {
  const filled = alsoFilled > 0 ? `, and ${counted(alsoFilled, "more cell")} of its array` : "";
  const also = alike.length > 0 ? `${filled}; the same in ${listed(alike, 4)}` : filled;
  const told = reason === "" ? why : reason;
  if (told !== undefined && kind === "waiting") return `${cell}: waiting for input: ${told}${also}`;
  if (told !== undefined) return `${cell}: ${reason === "" ? `${code}, since ` : ""}${told}${also}`;
  return formula === undefined
    ? `${cell}: ${code} stands in the cell${also}`
    : `${cell}: ${code} begins in ${shownFormula(formula)}${also}`;
}
