import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import type { DirectionPlaces } from "./direction";
import { validityColumn } from "./instruments";

interface Check {
  readonly label: string;
  readonly limit: string;
  /** What was measured, a formula for each direction; anything that is not a number yet shows as blank. */
  readonly measured: (direction: DirectionPlaces) => string;
  readonly digits: number;
  /** The condition on the cells of both directions. */
  readonly met: (cells: string) => string;
  readonly basis: string;
}

const inTable = (symbol: string) => (direction: DirectionPlaces) => direction.wholeTest.value(symbol);
const sizeOf = (symbol: string) => (direction: DirectionPlaces) => `ABS(${direction.wholeTest.value(symbol)})`;
const atLeast = (limit: number) => (cells: string) => `MIN(${cells})>=${limit}`;
const atMost = (limit: number) => (cells: string) => `MAX(${cells})<=${limit}`;

/** Conditions that ISO 9972 sets, as numbers; the marks are those of the sheet Method. */
const checks: readonly Check[] = [
  { label: "Readings used", limit: "≥ 5", measured: inTable("N"), digits: 0, met: atLeast(5), basis: "ISO 9972 (C)" },
  { label: "Lowest induced pressure, Pa", limit: "≥ 10", measured: sizeOf("dp_min"), digits: 1, met: atLeast(10), basis: "ISO 9972 (C)" },
  {
    label: "Lowest induced pressure, in baselines",
    limit: "≥ 5",
    measured: ({ wholeTest }) => `ABS(${wholeTest.value("dp_min")})/MAX(0.01,ABS(${wholeTest.value("dp0")}))`,
    digits: 1,
    met: atLeast(5),
    basis: "ISO 9972 (M)",
  },
  { label: "Highest induced pressure, Pa", limit: "≥ 50", measured: sizeOf("dp_max"), digits: 1, met: atLeast(50), basis: "ISO 9972 (C)" },
  { label: "Largest of the baseline means, Pa", limit: "≤ 5", measured: ({ conditions }) => conditions.largestBaseline, digits: 1, met: atMost(5), basis: "ISO 9972 (C)" },
  { label: "Flow exponent n", limit: "0.5 to 1", measured: inTable("n"), digits: 3, met: (cells) => `AND(MIN(${cells})>=0.5,MAX(${cells})<=1)`, basis: "ISO 9972 (C)" },
  { label: "Fit of the line, r²", limit: "≥ 0.98", measured: inTable("r2"), digits: 4, met: atLeast(0.98), basis: "ISO 9972 (C)" },
];

/** How many directions must be there. */
const needed = 'IF(TargetDirections="both",2,1)';

/** How many rows the section takes. */
export const checkRows = 2 + checks.length + 6;

/**
 * Conditions for a verdict as native formulas: "met", "not met", or "open" while something is missing; advisory ones say "look into it".
 * Returns the cell that sums up the binding ones.
 */
export function checksSection(sheet: Sheet, at: number, directions: readonly [DirectionPlaces, DirectionPlaces]): string {
  section(sheet, at, ["B", "G"], "Conditions for a verdict");
  columnHeads(sheet, at + 1, "B", ["<check", "<<limit", "depressurization", "pressurization", "outcome", "<<basis"]);
  const first = at + 2;
  checks.forEach(({ label, limit, measured, digits, met, basis }, index) => {
    const row = first + index;
    words(sheet, row, label, limit, basis);
    directions.forEach((direction, which) => {
      sheet.formula(`${"DE".charAt(which)}${row}`, `IFERROR(${measured(direction)},"")`, native(decimals(digits)));
    });
    const cells = `D${row}:E${row}`;
    sheet.formula(`F${row}`, `IF(COUNT(${cells})<${needed},"open",IF(${met(cells)},"met","not met"))`, native());
  });
  const last = otherConditions(sheet, first + checks.length, directions);
  sheet.when(`F${first}:F${last}`, `F${first}<>"met"`, { font: { bold: true, color: { rgb: palette.fail } } });
  const sum = style({ bold: true, top: palette.petrol, align: "right" });
  sheet.put(`B${last + 1}`, "All binding conditions", style({ align: "left" }, sum)).paint(`C${last + 1}:G${last + 1}`, sum);
  const outcomes = `F${first}:F${last}`;
  sheet.formula(`F${last + 1}`, `IF(COUNTIF(${outcomes},"not met")>0,"not met",IF(COUNTIF(${outcomes},"open")>0,"open","met"))`, sum);
  return `F${last + 1}`;
}

function words(sheet: Sheet, row: number, label: string, limit: string, basis: string): void {
  sheet.put(`B${row}`, label, looks.label).put(`C${row}`, limit, looks.unit).put(`G${row}`, basis, looks.unit);
  for (const letter of ["D", "E"]) sheet.put(`${letter}${row}`, null, looks.label);
}

function otherConditions(sheet: Sheet, from: number, [depressurization, pressurization]: readonly [DirectionPlaces, DirectionPlaces]): number {
  const [agreement, certificates, convention, spread, wind] = [from, from + 1, from + 2, from + 3, from + 4];
  words(sheet, agreement, "Step by step against the whole test", "agree", "cross-check");
  sheet.formula(`D${agreement}`, depressurization.line.agreement, native()).formula(`E${agreement}`, pressurization.line.agreement, native());
  const both = `D${agreement}:E${agreement}`;
  const agreed = `IF(COUNTIF(${both},"agree")<${needed},"open","met")`;
  sheet.formula(`F${agreement}`, `IF(COUNTIF(${both},"differ")>0,"not met",${agreed})`, native());

  words(sheet, certificates, "Certificates on the test day", "all valid", "ISO 9972 (M)");
  const lapsed = ["not valid", "date missing"].map((word) => `COUNTIF(${validityColumn},"${word}")`).join("+");
  sheet.formula(`D${certificates}`, `IF(${lapsed}=0,"all valid","not all")`, native());
  sheet.formula(`F${certificates}`, `IF(D${certificates}="all valid","met","not met")`, native());

  words(sheet, convention, "Volume convention, measured and asked for", "the same", "criterion");
  sheet.formula(`D${convention}`, "VolumeConvention", native()).formula(`E${convention}`, "TargetConvention", native());
  sheet.formula(`F${convention}`, `IF(OR(E${convention}="not used",D${convention}=E${convention}),"met","not met")`, native());

  words(sheet, spread, "Difference of the directions, % of the mean", "≤ 10", "practice, advisory");
  const [d, p] = [depressurization.wholeTest.value("q50"), pressurization.wholeTest.value("q50")];
  sheet.formula(`D${spread}`, `IFERROR(200*ABS(${d}-${p})/(${d}+${p}),"")`, native(decimals(1)));
  sheet.formula(`F${spread}`, `IF(COUNT(D${spread})=0,"look into it",IF(D${spread}<=10,"met","look into it"))`, native());

  words(sheet, wind, "Wind near the ground, m/s", "≤ 3", "ISO 9972 (C), advisory");
  sheet.formula(`D${wind}`, depressurization.conditions.wind, native(decimals(1)));
  sheet.formula(`E${wind}`, pressurization.conditions.wind, native(decimals(1)));
  const blown = `D${wind}:E${wind}`;
  sheet.formula(`F${wind}`, `IF(COUNT(${blown})<2,"look into it",IF(MAX(${blown})<=3,"met","look into it"))`, native());
  return wind;
}
