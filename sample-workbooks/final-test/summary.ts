import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import type { ResultPlaces } from "./results";

interface Line {
  readonly label: string;
  /** A formula for the label where it depends on other cells. */
  readonly named?: string;
  readonly value: string;
  readonly format?: string;
  /** A unit, or a formula that gives it. */
  readonly unit: string;
  readonly unitFormula?: string;
  readonly bold?: boolean;
}

/** Key results as label, value and unit; the range goes by the name Summary, which the recalculation prints. */
export function summarySection(sheet: Sheet, at: number, results: ResultPlaces): string {
  const { cell } = results;
  const lines: readonly Line[] = [
    {
      label: "Air change rate n_{50}, depressurization",
      value: cell("n50", "depressurization"),
      format: decimals(3),
      unit: "1/h",
    },
    {
      label: "Air change rate n_{50}, pressurization",
      value: cell("n50", "pressurization"),
      format: decimals(3),
      unit: "1/h",
    },
    { label: "Air change rate n_{50}, mean", value: cell("n50", "mean"), format: decimals(3), unit: "1/h", bold: true },
    { label: "Result that decides", value: results.deciding, format: decimals(3), unit: "", unitFormula: "TargetUnit" },
    { label: "Limit of the criterion", value: "TargetLimit", format: "0.0##", unit: "", unitFormula: "TargetUnit" },
    { label: "Conditions for a verdict", value: results.valid, unit: "" },
    { label: "Verdict", value: results.verdict, unit: "", bold: true },
    { label: "Air leakage rate q_{50}, mean", value: cell("q50", "mean"), format: decimals(1), unit: "m³/h" },
    { label: "Per envelope area, q_{E50}", value: cell("qE50", "mean"), format: decimals(3), unit: "m³/(h·m²)" },
    { label: "Effective leakage area at 4 Pa", value: cell("ELA4", "mean"), format: decimals(0), unit: "cm²" },
    { label: "Flow exponent n, depressurization", value: cell("n", "depressurization"), format: decimals(3), unit: "" },
    { label: "Flow exponent n, pressurization", value: cell("n", "pressurization"), format: decimals(3), unit: "" },
    {
      label: "",
      named: `"Internal volume, "&VolumeConvention`,
      value: "InternalVolume",
      format: decimals(1),
      unit: "m³",
    },
    { label: "Envelope area", value: "EnvelopeArea", format: decimals(1), unit: "m²" },
  ];
  section(sheet, at, ["B", "D"], "Key results");
  lines.forEach((line, index) => {
    const row = at + 1 + index;
    const bold = line.bold ?? false;
    if (line.named) sheet.formula(`B${row}`, line.named, looks.label);
    else sheet.rich(`B${row}`, line.label, style({ bold }, looks.label));
    sheet.formula(`C${row}`, line.value, style({ bold }, native(line.format)));
    if (line.unitFormula) sheet.formula(`D${row}`, line.unitFormula, looks.unit);
    else sheet.put(`D${row}`, line.unit || null, looks.unit);
  });
  return `B${at + 1}:D${at + lines.length}`;
}
