import { call, keepBlanks } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, style } from "../blocks/style";
import { between, oneOf, text, wholeBetween } from "../blocks/validation";
import { series } from "./scenario";

/** Rows of the steps, the first of them the state as found; spare rows included. */
export const seriesRows = { first: 15, last: 28 } as const;

const kinds = ["start", "nothing changed", "lasting", "temporary", "tape off"] as const;

/** The readings of each step, carried to 50 Pa in one call. */
export function seriesTable(sheet: Sheet): void {
  const { first, last } = seriesRows;
  section(sheet, first - 3, ["B", "P"], "Readings, a row a step");
  columnHeads(sheet, first - 1, "B", [
    "<step",
    "<what was done",
    "^leak no.",
    "<kind",
    "pressure|Pa",
    "baseline|Pa",
    "flow shown|m³/h",
    "flow|m³/h",
    "q50|m³/h",
    "lower, n|m³/h",
    "upper, n|m³/h",
    "std. unc., n|m³/h",
    "induced|Pa",
    "n used",
    "std. unc.|m³/h",
  ]);
  for (let row = first; row <= last; row++) {
    const [what, leak, kind, pressure, baseline, flow] = series.steps[row - first] ?? [];
    sheet.put(`B${row}`, row - first, style({ align: "left" }, looks.label));
    sheet.put(`C${row}`, what ?? null, style({ shrink: true }, input(undefined, "left")));
    sheet.type(`D${row}`, leak ?? null, decimals(0), "center").type(`E${row}`, kind ?? null, undefined, "left");
    sheet.type(`F${row}`, pressure ?? null, decimals(1)).type(`G${row}`, baseline ?? null, decimals(1));
    sheet.type(`H${row}`, flow ?? null, decimals(0));
    sheet.formula(
      `I${row}`,
      `IF(OR(ISTEXT(H${row}),F${row}>0),NA(),IF(COUNT(H${row},$O$9)<2,"",H${row}*$O$9))`,
      native(decimals(1)),
    );
    const whole = `SQRT(M${row}^2+J${row}^2*(RepeatUncertainty^2+DeviceUncertainty^2))`;
    const known = `COUNT(J${row},M${row},RepeatUncertainty,DeviceUncertainty)<4`;
    sheet.formula(`P${row}`, `IF(${known},"",${whole})`, native(decimals(1)));
  }
  const column = (letter: string) => `${letter}${first}:${letter}${last}`;
  const flow = call("ONEPOINTFLOW", column("I"), column("F"), "$N$6:$O$6", "50", keepBlanks(column("G")));
  const digits = [1, 1, 1, 1, 1, 3];
  sheet.addIn(`J${first}:O${last}`, flow, (_, at) => style({ bold: at === 0 }, fromAddIn(decimals(digits[at] ?? 1))));
  sheet.put(
    `B${last + 2}`,
    "Step 0 is the house as found. A step where nothing is changed shows how well the same thing reads twice: it should come out not significant. Where a temporary tape comes off again, that is a step of its own. " +
      "The limits beside q50 hold the exponent alone; the last column adds repeating the test and the device’s calibration, from the sheet House and instruments.",
    looks.note,
  );
  sheet.merge(`B${last + 2}:P${last + 4}`);
  sheet.validate(
    text(column("C"), "What was done", "The place that was taped or repaired before this reading.", 70),
    wholeBetween(column("D"), 1, 9999, "Leak", "Its number in the leak register, if it has one."),
    oneOf(column("E"), kinds, "Kind", "Lasting repair, temporary tape, tape taken off again, or nothing changed."),
    between(column("F"), -100, -5, "Pressure, Pa", "As read while depressurizing, below zero; near −50."),
    between(
      column("G"),
      -20,
      20,
      "Baseline, Pa",
      "Fan off and covered, just before; 0 is a value, and what a blank means.",
    ),
    between(column("H"), 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
  );
}
