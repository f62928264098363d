import { pointTests, worth } from "../../../sample-workbooks/mid-construction/scenario";
import type { CellValue } from "../../../src/workbook/index";
import { fitByHand } from "../leakage-by-hand";
import { sample, type Typed } from "../sample";

const { typed, typedCells } = sample("mid-construction.xlsx");
export { typed };

export const asStored = typed();

export const [first, second] = pointTests.map((test) => fitByHand(test, test.before, test.after, test.readings)) as [
  ReturnType<typeof fitByHand>,
  ReturnType<typeof fitByHand>,
];

/** A line of the Overview's summary, by its label. */
export function summary(test: Typed, label: string): CellValue {
  for (let row = 6; row < 40; row++) if (test.cell(`Overview!J${row}`) === label) return test.cell(`Overview!K${row}`);
  throw new Error(`the Summary has no line "${label}"`);
}

export const uncertaintyOf = (fit: typeof first) =>
  fit.q50 * Math.hypot(fit.logError, worth.device, worth.gauge * fit.n);

/** Those of the scatter, N − 2, carried over to the whole uncertainty (JCGM 100:2008 G.4.1). */
export const freedomOf = (fit: typeof first) => fit.freedom * (uncertaintyOf(fit) / fit.q50 / fit.logError) ** 4;

export const clearedCells = (keep: (place: string) => boolean) =>
  Object.fromEntries(typedCells.filter((place) => !keep(place)).map((place) => [place, null]));
