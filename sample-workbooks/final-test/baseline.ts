import { call, keepBlanks } from "../blocks/add-in";
import { columnOf, lettersOf } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, style } from "../blocks/style";
import { wholeMean } from "../blocks/typed-cells";
import { between } from "../blocks/validation";
import type { DirectionReadings } from "./scenario";

const baseline = { heads: 15, before: 16, after: 17 } as const;

/** Raw baseline readings of one run's sheet and their means, by address. */
export const baselinePlaces = {
  before: "$D$16:$M$16",
  after: "$D$17:$M$17",
  means: "$N$16:$P$17",
  baseline: "$S$16",
} as const;

/** Baseline readings before and after with their means, and the baseline of the test. */
export function baselineSection(sheet: Sheet, readings: DirectionReadings | undefined): void {
  section(
    sheet,
    14,
    ["B", "T"],
    "Baseline pressure, flow device covered, in Pa; ten readings or more before and after",
  );
  const numbers = Array.from({ length: 10 }, (_, index) => String(index + 1));
  columnHeads(sheet, baseline.heads, "D", [...numbers, "mean", "mean of +", "mean of −"]);
  sheet.paint(`B${baseline.heads}:T${baseline.heads}`, looks.columnHead);
  for (const [row, label, values] of [
    [baseline.before, "before", readings?.baselineBefore ?? []],
    [baseline.after, "after", readings?.baselineAfter ?? []],
  ] as const) {
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}`, looks.label);
    for (let index = 0; index < 10; index++) {
      sheet.type(`${lettersOf(columnOf("D") + index)}${row}`, values[index] ?? null, decimals(1));
    }
    const set = `D${row}:M${row}`;
    const meanOf = (sign: string) =>
      `IF(ISERROR($N${row}),NA(),IF(COUNTIF(${set},"${sign}0")=0,"",SUMIF(${set},"${sign}0")/COUNTIF(${set},"${sign}0")))`;
    sheet.formula(`N${row}`, wholeMean(set), native(decimals(2)));
    sheet.formula(`O${row}`, meanOf(">"), native(decimals(2))).formula(`P${row}`, meanOf("<"), native(decimals(2)));
  }
  sheet.rich("Q16", "Baseline Δp_{0}", style({ indent: 1, align: "left" }, looks.strong)).paint("R16", looks.label);
  const both = [baselinePlaces.before, baselinePlaces.after].map(keepBlanks);
  const anyRead = `COUNTA(${baselinePlaces.before},${baselinePlaces.after})=0`;
  sheet.addIn(
    "S16",
    `IF(${anyRead},"",${call("BASELINEPRESSURE", ...both)})`,
    style({ bold: true }, fromAddIn(decimals(2))),
  );
  sheet.put("T16", "Pa", looks.unit).put("Q17", "mean of the two means", looks.unit).paint("R17:T17", looks.unit);
  sheet.validate(
    between(
      `D${baseline.before}:M${baseline.after}`,
      -50,
      50,
      "Baseline reading, Pa",
      "Indoors minus outdoors with its own sign, flow device covered and off. 0 is a reading; spare cells stay blank.",
    ),
  );
}
