import { testedUnits, units, worth, type Run, type TestedUnit } from "../../../sample-workbooks/multi-unit/scenario";
import type { CellValue } from "../../../src/workbook/index";
import { fitByHand } from "../leakage-by-hand";
import { sample, type Typed } from "../sample";

export const { typed, typedCells } = sample("multi-unit.xlsx");

export const asStored = typed();

/** Flow at 50 Pa of one run, its standard uncertainty and the degrees of freedom of that, from the raw readings. */
function byHand(test: TestedUnit, run: Run): { q50: number; u: number; own: number; freedom: number } {
  const { n, q50, logError, freedom } = fitByHand(test, [run.before], [run.after], run.readings);
  const own = Math.hypot(logError, worth.gauge * n, worth.repeat);
  const relative = Math.hypot(own, worth.device);
  return { q50, u: q50 * relative, own: q50 * own, freedom: freedom * (relative / logError) ** 4 };
}

export const hand = testedUnits.map((test) => ({
  name: test.unit,
  unit: units.find(({ name }) => name === test.unit)!,
  row: 8 + units.findIndex(({ name }) => name === test.unit),
  unguarded: byHand(test, test.unguarded),
  guarded: test.guarded && byHand(test, test.guarded),
}));

/** A line of the Overview's summary, by the start of its label; subscripts have no-break spaces beside them. */
export function summary(test: Typed, label: string): CellValue {
  for (let row = 6; row < 25; row++) {
    const words = test.cell(`Overview!J${row}`);
    if (typeof words === "string" && words.replaceAll("\u00a0", " ").startsWith(label))
      return test.cell(`Overview!K${row}`);
  }
  throw new Error(`the Summary has no line "${label}"`);
}
