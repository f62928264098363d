import type { LeakageFit } from "../../core/index";
import { row, type TableRow } from "./table";

function sourceOf({ degreesOfFreedom, chiSquare }: LeakageFit): string {
  if (degreesOfFreedom === Infinity) return "stated uncertainties";
  return chiSquare === undefined ? "N − 2" : "N − 2: the scatter is larger than the stated uncertainties";
}

/** Degrees of freedom of a fit as a cell shows them, and where they come from. */
export function degreesOfFreedomRow(fit: LeakageFit): TableRow {
  const value = fit.degreesOfFreedom === Infinity ? "infinite" : fit.degreesOfFreedom;
  return row("degrees of freedom", "dof", value, "", sourceOf(fit));
}
