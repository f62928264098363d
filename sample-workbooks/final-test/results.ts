import { onSheet } from "../blocks/address";
import { columnHeads, pageHead, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { checkRows, checksSection, neededAt, testedAt } from "./checks";
import type { DirectionPlaces } from "./direction";
import { footer, letterhead, sheets, type Page } from "./places";
import type { ResultPlaces } from "./result-places";
import { summarySection } from "./summary";
import { verdictSection } from "./verdict";

interface Quantity {
  readonly symbol: string;
  readonly label: string;
  readonly shown: string;
  readonly unit: string;
  readonly digits: number;
  /** C and n belong to one direction; their mean means nothing. */
  readonly averaged: boolean;
}

const quantities: readonly Quantity[] = [
  { symbol: "n50", label: "Air change rate at 50 Pa", shown: "n_{50}", unit: "1/h", digits: 3, averaged: true },
  { symbol: "q50", label: "Air leakage rate at 50 Pa", shown: "q_{50}", unit: "m³/h", digits: 1, averaged: true },
  {
    symbol: "qE50",
    label: "Specific leakage rate, envelope area",
    shown: "q_{E50}",
    unit: "m³/(h·m²)",
    digits: 3,
    averaged: true,
  },
  {
    symbol: "qF50",
    label: "Specific leakage rate, floor area",
    shown: "q_{F50}",
    unit: "m³/(h·m²)",
    digits: 3,
    averaged: true,
  },
  {
    symbol: "ELA4",
    label: "Effective leakage area at 4 Pa, C_{d} 1",
    shown: "ELA_{4}",
    unit: "cm²",
    digits: 0,
    averaged: true,
  },
  { symbol: "AL10", label: "Leakage area at 10 Pa, C_{d} 1", shown: "A_{L10}", unit: "cm²", digits: 0, averaged: true },
  {
    symbol: "EqLA10",
    label: "Equivalent leakage area at 10 Pa, C_{d} 0.611",
    shown: "EqLA_{10}",
    unit: "cm²",
    digits: 0,
    averaged: true,
  },
  { symbol: "n", label: "Flow exponent", shown: "n", unit: "", digits: 3, averaged: false },
  {
    symbol: "C_L",
    label: "Air leakage coefficient",
    shown: "C_{L}",
    unit: "m³/(h·Pa^{n})",
    digits: 2,
    averaged: false,
  },
  { symbol: "r2", label: "Fit of the line", shown: "r²", unit: "", digits: 4, averaged: false },
  { symbol: "count", label: "Readings used", shown: "N", unit: "", digits: 0, averaged: false },
];

const table = { heads: 6, first: 7 } as const;
const verdictAt = table.first + quantities.length + 4;
const checksAt = verdictAt + 11;
const lastRow = checksAt + checkRows;

export function resultsPage(
  ...directions: [DirectionPlaces, DirectionPlaces]
): Page & { readonly places: ResultPlaces } {
  const sheet = new Sheet(sheets.results, [1.5, 37, 9.5, 14, 14, 12.5, 18, 3, 3, 36, 14, 14], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:G${lastRow}`],
    pages: 1,
    footer,
  });
  const lead = "Both directions side by side. The mean is that of the derived results, never of C and n.";
  pageHead(sheet, letterhead, ["B", "G"], "Results", lead);
  sheet.heightOf(13.5, 5, lastRow);
  sideBySide(sheet, ...directions);
  const checked = checksSection(sheet, checksAt, directions);
  const tested = [testedAt(checksAt, 0), testedAt(checksAt, 1)] as const;
  const verdict = verdictSection(sheet, verdictAt, directions, { ...checked, needed: neededAt(checksAt), tested });
  const columns = { depressurization: "D", pressurization: "E", mean: "F" } as const;
  const place = (reference: string) => onSheet(sheets.results, reference);
  const places: ResultPlaces = {
    cell: (symbol, column) => place(`${columns[column]}${rowOf(symbol)}`),
    deciding: place(verdict.deciding),
    verdict: place(verdict.verdict),
    rule: place(verdict.rule),
    directions: place(verdict.directions),
    state: place(verdict.state),
    findings: place(checked.findings),
  };
  return { sheet, names: { Summary: place(summarySection(sheet, 5, places)) }, places };
}

function rowOf(symbol: string): number {
  const index = quantities.findIndex((quantity) => quantity.symbol === symbol);
  if (index < 0) throw new Error(`no row for ${symbol}`);
  return table.first + index;
}

/** A direction without readings is said to be so, rather than printing as an error. */
function ifTested(which: 0 | 1, value: string): string {
  return `IF(${testedAt(checksAt, which)}="no","not tested",${value})`;
}

function sideBySide(sheet: Sheet, depressurization: DirectionPlaces, pressurization: DirectionPlaces): void {
  section(sheet, 5, ["B", "G"], "Side by side");
  columnHeads(sheet, table.heads, "B", [
    "<quantity",
    "<symbol",
    "depressurization",
    "pressurization",
    "mean",
    "<<unit",
  ]);
  for (const { symbol, label, shown, unit, digits, averaged } of quantities) {
    const row = rowOf(symbol);
    const look = style({ bold: true }, native(decimals(digits)));
    sheet.rich(`B${row}`, label, looks.label).rich(`C${row}`, shown, looks.label).rich(`G${row}`, unit, looks.unit);
    sheet.formula(`D${row}`, ifTested(0, depressurization.wholeTest.value(symbol)), native(decimals(digits)));
    sheet.formula(`E${row}`, ifTested(1, pressurization.wholeTest.value(symbol)), native(decimals(digits)));
    if (averaged) sheet.formula(`F${row}`, `IF(COUNT(D${row}:E${row})<2,"",AVERAGE(D${row}:E${row}))`, look);
    else sheet.put(`F${row}`, null, looks.label);
  }
  for (const [offset, label, pick] of [
    [0, "Lower 95 % limit of q_{50}, from the fit alone", "lower"],
    [1, "Upper 95 % limit of q_{50}, from the fit alone", "upper"],
  ] as const) {
    const row = table.first + quantities.length + offset;
    sheet.rich(`B${row}`, label, looks.label).paint(`C${row}:F${row}`, looks.label).put(`G${row}`, "m³/h", looks.unit);
    sheet.formula(`D${row}`, ifTested(0, depressurization.wholeTest[pick]("q50")), native(decimals(1)));
    sheet.formula(`E${row}`, ifTested(1, pressurization.wholeTest[pick]("q50")), native(decimals(1)));
  }
  const row = table.first + quantities.length + 2;
  sheet
    .put(`B${row}`, "Difference of the two directions, in % of their mean", looks.label)
    .paint(`C${row}:E${row}`, looks.label);
  sheet.formula(
    `F${row}`,
    `IF(F${rowOf("q50")}="","",100*ABS(D${rowOf("q50")}-E${rowOf("q50")})/F${rowOf("q50")})`,
    native(decimals(1)),
  );
  sheet.put(`G${row}`, "%", looks.unit);
}
