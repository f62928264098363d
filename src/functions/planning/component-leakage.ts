import { componentExponent, componentLeakage as leakageOf, usualPressure, type Component } from "../../core/index";
import { isBlankOrZero, numberIn, plain, rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { oneOptionalNumber } from "../cells/spread";
import { invalid, missing } from "../cells/rule-codes";

/** One column of the list of components: one value per row, or one for all rows. */
function columnOf(argument: unknown, name: string, rows: number): (row: number) => number | undefined {
  const cells = rowsOf(argument).flat();
  if (cells.length > 1 && cells.length !== rows)
    throw invalid(name, "unlikeSize", { count: cells.length, others: rows, of: "amounts" });
  return (row) => {
    const cell = cells.length === 1 ? cells[0] : cells[row - 1];
    const shownRow = cells.length === 1 ? undefined : row;
    return isBlankOrZero(plain(cell, name, shownRow)) ? undefined : numberIn(cell, name, shownRow);
  };
}

function componentsIn(amounts: unknown, leakages: unknown, pressures: unknown, exponents: unknown): Component[] {
  const cells = rowsOf(amounts).flat();
  const amountAt = columnOf(amounts, "amounts", cells.length);
  const leakageAt = columnOf(leakages, "leakages", cells.length);
  const pressureAt = columnOf(pressures, "rated_pressures", cells.length);
  const exponentAt = columnOf(exponents, "exponents", cells.length);
  const without = (name: string, part: string, lacks: string, row: number) =>
    missing(name, "without", { part, lacks }, row);
  return cells.flatMap((_, index) => {
    const row = index + 1;
    const amount = amountAt(row);
    if (amount === undefined) return [];
    const leakage = leakageAt(row);
    if (leakage === undefined) throw without("leakages", "an amount", "leakage", row);
    const ratedPressure = pressureAt(row);
    if (ratedPressure === undefined) throw without("rated_pressures", "a leakage", "rated pressure", row);
    return [{ amount, leakage, ratedPressure, exponent: exponentAt(row) ?? componentExponent, row }];
  });
}

/**
 * Flow through a list of components at one pressure, in the flow unit of the leakages. A row without an amount counts
 * as zero. Windows and doors to EN 12207, at 100 Pa: class 1 is 50, class 2 27, class 3 9, class 4 3 m³/(h·m²); class 4
 * is 1.9 at 50 Pa.
 * Equation: q = Σ amount·leakage·(p/p_rated)^n.
 * Source: EN 12207:2016 for the classes and the exponent 2/3.
 * @customfunction COMPONENTLEAKAGE
 * @param amounts Number, length or area of each component. 0 or blank is none.
 * @param leakages Flow per unit of amount at the rated pressure, one per row or one for all. 0 means blank.
 * @param rated_pressures Pressure at which the leakage is given, Pa, one per row or one for all. 0 means blank.
 * @param [exponents] n of each component, one per row or one for all; 2/3 if not given. 0 means blank.
 * @param [at] Pressure of the result, Pa; 50 if not given. 0 means blank.
 * @returns The flow of all.
 * @core planning/component-leakage.ts
 * @check authorities/residential-components.test.ts authorities/planning-figures.test.ts
 */
export function componentLeakage(
  amounts: any[][],
  leakages: any[][],
  rated_pressures: any[][],
  exponents?: any[][],
  at?: any[][],
): number {
  return inCell(() => {
    const components = componentsIn(amounts, leakages, rated_pressures, exponents);
    const pressure = oneOptionalNumber(at, "at") ?? usualPressure;
    if (components.length === 0) throw missing("amounts", "notGiven");
    return leakageOf(components, pressure);
  });
}
