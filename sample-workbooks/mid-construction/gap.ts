import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import { tableHeads } from "../blocks/result-tables";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { between } from "../blocks/validation";
import { bySymbol, sheets } from "./layout";

/** First rows of the sections about the gap. */
export const gapRows = { now: 6, settings: 14, gap: 25, hole: 43 } as const;
const gapTableRows = { first: gapRows.gap + 2, last: gapRows.gap + 15 } as const;

/** Columns of label, value and unit. */
export const gapForm = { label: "B", value: "E", unit: "F" } as const;

/** True while there is no limit to compare with. */
export const withoutLimit = "COUNT(TargetLimit)=0";

/** The range of the settings. */
export const settingsRange = `B${gapRows.settings + 1}:C${gapRows.settings + 9}`;

/** Degrees of freedom of the flow now; blank for infinite ones. */
export const freedomNow = `C${gapRows.settings + 9}`;

/** What the add-in needs to know beside the flow and the limit. */
export function writeGapSettings(sheet: Sheet, freedom: string): void {
  const at = gapRows.settings;
  writeHeading(sheet, at, ["B", "C"], "Settings, from the other sheets");
  const lines: readonly (readonly [label: string, value: string, format?: string])[] = [
    ["quantity", keepBlanks("TargetQuantity")],
    ["reference pressure", keepBlanks("TargetPressure"), decimals(0)],
    ["leakage area definition", keepBlanks("TargetDefinition")],
    ["volume", keepBlanks("InternalVolume"), decimals(1)],
    ["envelope area", keepBlanks("EnvelopeArea"), decimals(1)],
    ["floor area", keepBlanks("FloorArea"), decimals(1)],
    ["volume convention", keepBlanks("VolumeConvention")],
    ["exponent", keepBlanks(`E${gapRows.now + 3}`), decimals(3)],
    ["flow degrees of freedom", freedom, decimals(0)],
  ];
  lines.forEach(([label, value, format], index) => {
    sheet.put(`B${at + 1 + index}`, label, looks.label);
    sheet.formula(`C${at + 1 + index}`, value, style({ shrink: true }, native(format, "left")));
  });
  const convention =
    '"Volume convention: "&IF(ConventionFits="agrees","as the criterion means it.",IF(ConventionFits="differs","not the one that the criterion means: gap and forecast do not hold.","not given."))';
  sheet.formula(`E${at + 1}`, convention, style({ wrap: true, vertical: "top" }, looks.text));
  sheet.merge(`E${at + 1}:H${at + 3}`);
  sheet.when(`E${at + 1}:H${at + 3}`, 'ConventionFits<>"agrees"', {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

/** The look of the words of a table. */
export const words = (column: number) =>
  style({ shrink: true, size: column > 4 ? 8 : 9, indent: column === 5 ? 1 : 0 }, fromAddIn(undefined, "left"));

/** What separates the flow from its limit, a row each; gives a formula for the value of a symbol. */
export function writeGapTable(sheet: Sheet): (symbol: string) => string {
  writeHeading(sheet, gapRows.gap, ["B", "H"], "What is still to seal");
  writeColumnHeads(sheet, gapRows.gap + 1, "B", tableHeads);
  const whole = call("TARGETGAP", `E${gapRows.now + 1}`, "TargetLimit", "ForecastSettings");
  const digits = [0, 1, 1, 3, 3, 1, 1, 1, 1, 1, 1, 0, 1, 1];
  sheet.addIn(
    `B${gapTableRows.first}:H${gapTableRows.last}`,
    `IF(OR(${withoutLimit},COUNT(E${gapRows.now + 1})=0),"",${whole})`,
    (row, column) =>
      column < 2 || column > 4 ? words(column) : style({ shrink: true }, fromAddIn(decimals(digits[row] ?? 1))),
  );
  const range = (letter: string) =>
    onSheet(sheets.forecast, `${letter}${gapTableRows.first}:${letter}${gapTableRows.last}`);
  return bySymbol(range("C"), range("D"));
}

/** The same flow as holes that can be looked for. */
export function writeHole(sheet: Sheet): void {
  const at = gapRows.hole;
  const [flow, allowed] = [`E${gapRows.now + 1}`, `E${gapRows.now + 6}`];
  writeHeading(sheet, at - 1, ["B", "H"], "As holes that one can look for");
  const area = `(${flow}-${allowed})/3600/0.6*SQRT(1.2041/2/50)*10000`;
  writeFormLines(sheet, at, gapForm, [
    {
      label: "Real opening that passes the flow to remove, C_{d} 0.6",
      formula: `IF(COUNT(${flow},${allowed})<2,"",IF(${flow}<=${allowed},0,${area}))`,
      format: decimals(1),
      unit: "cm²",
    },
  ]);
  sheet.put(`B${at + 1}`, "As one round hole", looks.label).paint(`C${at + 1}:D${at + 1}`, looks.label);
  sheet.addIn(`E${at + 1}`, call("HOLEDIAMETER", `E${at}`), fromAddIn(decimals(0))).put(`F${at + 1}`, "mm", looks.unit);
  writeFormLines(sheet, at + 2, gapForm, [
    { label: "Or as holes of this diameter", typed: 20, format: decimals(0), unit: "mm" },
    {
      label: "so many",
      formula: `IF(COUNT(E${at},E${at + 2})<2,"",ROUNDUP(E${at}/(PI()*(E${at + 2}/20)^2),0))`,
      format: decimals(0),
    },
  ]);
  sheet.validate(
    between(`E${at + 2}`, 1, 1000, "Diameter, mm", "A hole of a kind that you know: a missed cable, a pipe sleeve."),
  );
  sheet.put(
    `B${at + 5}`,
    "Sizes for the eye, not for the tape measure: cracks are long and thin, and what is sealed may leak with another exponent than the house.",
    looks.note,
  );
  sheet.merge(`B${at + 5}:H${at + 6}`);
}
