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

const deciding = "Result that decides";
const limit = "Limit of the criterion";

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
    { label: deciding, value: results.deciding, format: decimals(3), unit: "", unitFormula: "TargetUnit" },
    { label: limit, value: "TargetLimit", format: "0.0##", unit: "", unitFormula: "TargetUnit" },
    { label: "Conditions for a verdict", value: results.valid, unit: "" },
    {
      label: "Verdict",
      value: `IFERROR(IF(${results.verdict}="","open",${results.verdict}),"open")`,
      unit: "",
      bold: true,
    },
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
  section(sheet, at, ["F", "H"], "Key results");
  lines.forEach((line, index) => {
    const row = at + 1 + index;
    const bold = line.bold ?? false;
    if (line.named) sheet.formula(`F${row}`, line.named, looks.label);
    else sheet.rich(`F${row}`, line.label, style({ bold }, looks.label));
    sheet.formula(`G${row}`, line.value, style({ bold }, native(line.format)));
    if (line.unitFormula) sheet.formula(`H${row}`, line.unitFormula, looks.unit);
    else sheet.put(`H${row}`, line.unit || null, looks.unit);
  });
  const rowOf = (label: string) => at + 1 + lines.findIndex((line) => line.label === label);
  sheet.moreDigitsNear(`G${rowOf(deciding)}`, `G${rowOf(limit)}`);
  return `F${at + 1}:H${at + lines.length}`;
}
