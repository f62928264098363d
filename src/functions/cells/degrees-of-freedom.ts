import type { LeakageFit } from "../../core/index";
import { isBlankOrZero, numberIn, onlyCell, plain, rowsOf } from "./cells";
import type { Input } from "./spread";
import { row, type TableRow } from "./table";

/** Degrees of freedom in a cell: a number, or the word "infinite" as the tables of this project write it; undefined where it is blank, which a 0 is too. */
function degreesIn(cell: unknown, name: string, row?: number): number | undefined {
  const value = plain(cell, name, row);
  if (isBlankOrZero(value)) return undefined;
  const infinite = typeof value === "string" && /^(infinite|infinity|∞)$/i.test(value.trim());
  return infinite ? Infinity : numberIn(value, name, row);
}

/** The same cell by cell. */
export function degreesOfFreedom(name: string, argument: unknown): Input<number> {
  return { name, rows: rowsOf(argument), read: (cell, row) => degreesIn(cell, name, row), optional: false };
}

/** The same from the only cell of an argument. */
export function oneDegreesOfFreedom(argument: unknown, name: string): number | undefined {
  return degreesIn(onlyCell(argument, name), name);
}

function sourceOf({ degreesOfFreedom, chiSquare }: LeakageFit): string {
  if (degreesOfFreedom === Infinity) return "stated uncertainties";
  return chiSquare === undefined ? "N − 2" : "N − 2: the scatter is larger than the stated uncertainties";
}

/** Degrees of freedom of a fit as a cell shows them, and where they come from. */
export function degreesOfFreedomRow(fit: LeakageFit): TableRow {
  const value = fit.degreesOfFreedom === Infinity ? "infinite" : fit.degreesOfFreedom;
  return row("degrees of freedom", "dof", value, "", sourceOf(fit));
}
