import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, probabilityFormat, style } from "../blocks/style";
import type { OverviewSources } from "./overview-sources";
import { countPlaces } from "./register-counts";

interface Line {
  readonly label: string;
  readonly value: string;
  readonly format?: string;
  readonly unit: string;
}

/** A value that stays blank while its cell is. */
const kept = (cell: string) => `IF(${cell}="","",${cell})`;

function housesFigures({ tests, series, forecast }: OverviewSources): readonly Line[] {
  const [first, second] = tests;
  return [
    { label: `q_{50}, ${first.title}`, value: kept(first.q50), format: decimals(1), unit: "m³/h" },
    { label: `n_{50}, ${first.title}`, value: kept(first.n50), format: decimals(3), unit: "1/h" },
    { label: "q_{50}, last retest", value: kept(series.lastFlow), format: decimals(1), unit: "m³/h" },
    { label: `q_{50}, ${second.title}`, value: kept(second.q50), format: decimals(1), unit: "m³/h" },
    { label: `n_{50}, ${second.title}`, value: kept(second.n50), format: decimals(3), unit: "1/h" },
    { label: `n, ${second.title}`, value: kept(second.n), format: decimals(3), unit: "" },
    { label: "Won by tape and retest", value: kept(series.change), format: decimals(1), unit: "m³/h" },
    { label: "which is", value: kept(series.changeWord), unit: "" },
    { label: "Flow that the limit allows", value: kept("AllowedFlow"), format: decimals(1), unit: "m³/h" },
    { label: "Still to remove", value: forecast.toRemove, format: decimals(1), unit: "m³/h" },
    { label: "in % of the flow now", value: forecast.toRemovePercent, format: decimals(1), unit: "%" },
    { label: "As one round hole", value: kept(forecast.hole), format: decimals(0), unit: "mm" },
  ];
}

function siteFigures({ forecast }: OverviewSources): readonly Line[] {
  return [
    { label: "Final test, likely q_{50}", value: forecast.flowLikely, format: decimals(1), unit: "m³/h" },
    { label: "at best", value: forecast.flowBest, format: decimals(1), unit: "m³/h" },
    { label: "at worst", value: forecast.flowWorst, format: decimals(1), unit: "m³/h" },
    { label: "Likely, as the limit counts", value: forecast.likely, format: decimals(3), unit: "{unit}" },
    { label: "Limit", value: kept("TargetLimit"), format: "0.0##", unit: "{unit}" },
    {
      label: "Probability of meeting the limit",
      value: `IF(ConventionFits="agrees",${kept(forecast.probability)},"open")`,
      format: probabilityFormat,
      unit: "",
    },
    { label: "Outlook", value: `IF(ConventionFits="agrees",${forecast.outlook},"open")`, unit: "" },
    { label: "Leaks in the register", value: countPlaces.all, format: decimals(0), unit: "" },
    { label: "open", value: countPlaces.open, format: decimals(0), unit: "" },
    { label: "repaired, not retested", value: countPlaces.repaired, format: decimals(0), unit: "" },
    { label: "retested or accepted", value: `SUM(${countPlaces.done})`, format: decimals(0), unit: "" },
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
    const indented = /^[a-z]/.test(line.label) && !/^[qn](_|,)/.test(line.label);
    sheet.rich(
      `${label}${row}`,
      line.label,
      indented ? style({ indent: 1, colour: palette.grey }, looks.label) : looks.label,
    );
    sheet.formula(`${value}${row}`, line.value, style({ shrink: true }, native(line.format)));
    if (line.unit === "{unit}") sheet.formula(`${unit}${row}`, 'IF(TargetUnit="","",TargetUnit)', looks.unit);
    else sheet.put(`${unit}${row}`, line.unit || null, looks.unit);
  });
}

/** Measured figures on the left, forecast and leaks on the right; thirteen rows. */
export function figures(sheet: Sheet, at: number, sources: OverviewSources): void {
  section(sheet, at, ["B", "D"], "Measured");
  section(sheet, at, ["F", "H"], "Forecast and leaks");
  const lines = housesFigures(sources);
  lines.forEach((_, index) => sheet.paint(`B${at + 1 + index}:B${at + 1 + index}`, looks.label));
  write(sheet, at + 1, ["B", "C", "D"], lines);
  write(sheet, at + 1, ["F", "G", "H"], siteFigures(sources));
}

/** All figures as label, value and unit, beside the page; the range goes by the name Summary, which the recalculation prints. */
export function summarySection(sheet: Sheet, at: number, sources: OverviewSources): string {
  section(sheet, at, ["J", "L"], "Summary (not printed)");
  const lines = [...housesFigures(sources), ...siteFigures(sources)];
  write(sheet, at + 1, ["J", "K", "L"], lines);
  return `J${at + 1}:L${at + lines.length}`;
}
