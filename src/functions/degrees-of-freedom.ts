import type { LeakageFit } from "../core/index";
import type { TableRow } from "./table";

/** Degrees of freedom of a fit as a cell shows them, and where they come from. */
export function degreesOfFreedomRow({ degreesOfFreedom, chiSquare }: LeakageFit): TableRow {
  const row = { what: "degrees of freedom", symbol: "dof" };
  if (degreesOfFreedom === Infinity) return { ...row, value: "infinite", source: "stated uncertainties" };
  const source = chiSquare === undefined ? "N − 2" : "N − 2: the scatter is larger than the stated uncertainties";
  return { ...row, value: degreesOfFreedom, source };
}
