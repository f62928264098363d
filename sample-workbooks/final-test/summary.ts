import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, probabilityFormat, style } from "../blocks/style";
import type { ResultPlaces } from "./result-places";
import type { Scenario } from "./scenario";

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
  /** The panel of the cover shows it large, so that the key results leave it out. */
  readonly inPanel?: true;
}

const deciding = "Result that decides";
const limit = "Limit of the criterion";
const upper = "Upper limit of the result";

function linesOf({ cell, ...results }: ResultPlaces, { units }: Scenario): readonly Line[] {
  const specific = decimals(units.system === "SI" ? 3 : 4);
  const ofTarget = { unit: "", unitFormula: 'IFERROR(TargetUnit,"")' } as const;
  return [
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
    {
      label: deciding,
      value: results.deciding,
      format: specific,
      ...ofTarget,
      inPanel: true,
    },
    {
      label: limit,
      value: "TargetLimit",
      format: "0.0###",
      ...ofTarget,
      inPanel: true,
    },
    { label: "Expanded uncertainty U of the result", value: results.uncertainty, format: specific, ...ofTarget },
    { label: "Lower limit of the result", value: results.lower, format: specific, ...ofTarget },
    { label: upper, value: results.upper, format: specific, ...ofTarget },
    {
      label: "Probability that the limit is met",
      value: `IF(${results.probability}="","",${results.probability})`,
      format: probabilityFormat,
      unit: "",
    },
    {
      label: "Conditions for a verdict",
      value: results.findings,
      unit: "",
      // What stands in the way first, for those who see the summary alone.
      unitFormula: `IFERROR(MID(${results.state},FIND("First: ",${results.state}),255),"")`,
      inPanel: true,
    },
    {
      label: "Verdict",
      value: `IFERROR(IF(${results.verdict}="","open",${results.verdict}),"open")`,
      unit: "",
      bold: true,
      inPanel: true,
    },
    { label: "Air leakage rate q_{50}, mean", value: cell("q50", "mean"), format: decimals(1), unit: units.flow },
    { label: "Per envelope area, q_{E50}", value: cell("qE50", "mean"), format: specific, unit: units.perArea },
    { label: "Per floor area, q_{F50}", value: cell("qF50", "mean"), format: specific, unit: units.perArea },
    {
      label: "Effective leakage area at 4 Pa",
      value: cell("ELA4", "mean"),
      format: decimals(1),
      unit: units.leakageArea,
    },
    { label: "Flow exponent n, depressurization", value: cell("n", "depressurization"), format: decimals(3), unit: "" },
    { label: "Flow exponent n, pressurization", value: cell("n", "pressurization"), format: decimals(3), unit: "" },
    {
      label: "",
      named: `"Internal volume, "&VolumeConvention`,
      value: "InternalVolume",
      format: decimals(1),
      unit: units.volume,
    },
    { label: "Envelope area", value: "EnvelopeArea", format: decimals(1), unit: units.area },
    { label: "Floor area", value: "FloorArea", format: decimals(1), unit: units.area },
  ];
}

function write(
  sheet: Sheet,
  at: number,
  [label, value, unit]: readonly [string, string, string],
  lines: readonly Line[],
) {
  lines.forEach((line, index) => {
    const row = at + index;
    const bold = line.bold ?? false;
    if (line.named) sheet.formula(`${label}${row}`, line.named, looks.label);
    else sheet.rich(`${label}${row}`, line.label, style({ bold }, looks.label));
    sheet.formula(`${value}${row}`, line.value, style({ bold }, native(line.format)));
    if (line.unitFormula) sheet.formula(`${unit}${row}`, line.unitFormula, looks.unit);
    else sheet.put(`${unit}${row}`, line.unit || null, looks.unit);
  });
}

/** What the cover's panel does not show already. */
export function keyResults(sheet: Sheet, at: number, results: ResultPlaces, form: Scenario): void {
  section(sheet, at, ["F", "H"], "Key results");
  const lines = linesOf(results, form).filter(({ inPanel }) => !inPanel);
  write(sheet, at + 1, ["F", "G", "H"], lines);
}

/** All results as label, value and unit, beside the page; the range goes by the name Summary, which the recalculation prints. */
export function summarySection(sheet: Sheet, at: number, results: ResultPlaces, form: Scenario): string {
  section(sheet, at, ["K", "M"], "Summary (not printed)");
  const lines = linesOf(results, form);
  write(sheet, at + 1, ["K", "L", "M"], lines);
  const rowOf = (label: string) => at + 1 + lines.findIndex((line) => line.label === label);
  for (const label of [deciding, upper]) sheet.moreDigitsNear(`L${rowOf(label)}`, `L${rowOf(limit)}`);
  return `K${at + 1}:M${at + lines.length}`;
}
