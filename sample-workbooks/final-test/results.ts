import { onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { checkRows, checksSection } from "./checks";
import type { DecidingBudget } from "./deciding-budget";
import type { Runs } from "./direction";
import { footer, sheets } from "./places";
import { averaged, ofOneRun, type Quantity } from "./quantities";
import type { ResultPlaces } from "./result-places";
import { isTested, meanOfDirections, meanOfRuns, runColumns, runsFirst } from "./run-means";
import type { Direction, Scenario } from "./scenario";
import { summarySection } from "./summary";
import { limitedQuantity, verdictSection } from "./verdict";

/** Rows of the two tables; the first one begins with whether a run has readings, and ends with the limited result. */
const quantityCount = 7;
const limitedRow = runsFirst + 1 + 2 * quantityCount;
const meansHead = limitedRow + 2;
const meansFirst = meansHead + 2;
const verdictAt = meansFirst + quantityCount + 2;
const verdictRows = 15;
const checksAt = verdictAt + verdictRows;
const lastRow = checksAt + checkRows;

export function resultsPage(
  form: Scenario,
  runs: Runs,
  budget: DecidingBudget,
): Page & { readonly places: ResultPlaces } {
  const sheet = new Sheet(sheets.results, [1.5, 41, 10, 15, 14, 14, 14, 16, 3, 3, 36, 14, 14], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:H${lastRow}`],
    pages: 1,
    footer,
  });
  const lead =
    "Every run, the mean of the runs of a direction, and the mean of both: of the derived results, never of C and n.";
  pageHead(sheet, letterhead, ["B", "H"], "Results", lead);
  sheet.heightOf(13.5, 5, lastRow);
  runTable(sheet, form, runs);
  meanTable(sheet, form);
  const word = (direction: Direction) => `IF(${isTested(direction)},"yes","no")`;
  const words = [word("depressurization"), word("pressurization")] as const;
  const checked = checksSection(sheet, checksAt, runs, words, budget);
  const verdict = verdictSection(sheet, verdictAt, runs, { ...checked, budget, limitedRow, testedRow: runsFirst });
  const columns = { depressurization: "D", pressurization: "E", mean: "F" } as const;
  const firstRun = { depressurization: "D", pressurization: "F", mean: "H" } as const;
  const place = (reference: string) => onSheet(sheets.results, reference);
  const places: ResultPlaces = {
    cell: (symbol, column) => {
      const mean = averaged(form.units).findIndex((one) => one.symbol === symbol);
      if (mean >= 0) return place(`${columns[column]}${meansFirst + mean}`);
      const own = ofOneRun(form.units).findIndex((one) => one.symbol === symbol);
      if (own < 0) throw new Error(`no row for ${symbol}`);
      return place(`${firstRun[column]}${runsFirst + 1 + own}`);
    },
    deciding: place(verdict.deciding),
    uncertainty: place(verdict.uncertainty),
    lower: place(verdict.lower),
    upper: place(verdict.upper),
    probability: place(verdict.probability),
    verdict: place(verdict.verdict),
    rule: place(verdict.rule),
    directions: place(verdict.directions),
    state: place(verdict.state),
    findings: place(checked.findings),
  };
  return { sheet, names: { Summary: place(summarySection(sheet, 5, places, form)) }, places };
}

function named(sheet: Sheet, row: number, { label, shown, unit }: Quantity): void {
  sheet.rich(`B${row}`, label, looks.label).rich(`C${row}`, shown, looks.label).rich(`H${row}`, unit, looks.unit);
  sheet.paint(`B${row}:H${row}`, looks.label);
}

/** A run without readings is said to be so, rather than printing as an error. */
function runTable(sheet: Sheet, { units }: Scenario, runs: Runs): void {
  section(sheet, 5, ["B", "H"], "Run by run");
  const heads = ["depressurization", "second run", "pressurization", "second run"];
  columnHeads(sheet, 6, "B", ["<quantity", "<symbol", ...heads, "<<unit"]);
  sheet.put(`B${runsFirst}`, "Has readings", looks.label);
  runs.forEach(({ readings }, index) => {
    sheet.formula(`${runColumns[index]}${runsFirst}`, `IF(COUNTA(${readings})>0,"yes","no")`, native());
  });
  sheet.paint(`B${runsFirst}:H${runsFirst}`, looks.label);
  [...ofOneRun(units), ...averaged(units)].forEach((quantity, index) => {
    const row = runsFirst + 1 + index;
    named(sheet, row, quantity);
    runs.forEach(({ wholeTest }, which) => {
      const value = wholeTest[quantity.column ?? "value"](quantity.symbol);
      sheet.formula(`${runColumns[which]}${row}`, ifMade(which, value), native(decimals(quantity.digits)));
    });
  });
  sheet.formula(
    `B${limitedRow}`,
    'IFERROR("Limited: "&TargetQuantity&" at "&TargetPressure&" Pa","Limited result")',
    looks.label,
  );
  runs.forEach(({ wholeTest }, which) => {
    const value = limitedQuantity(wholeTest.value, units);
    sheet.formula(
      `${runColumns[which]}${limitedRow}`,
      ifMade(which, value),
      native(decimals(units.system === "SI" ? 3 : 4)),
    );
  });
  sheet
    .formula(`H${limitedRow}`, 'IFERROR(TargetUnit,"")', looks.unit)
    .paint(`B${limitedRow}:H${limitedRow}`, looks.label);
}

function ifMade(which: number, value: string): string {
  return `IF($${runColumns[which]}$${runsFirst}="no","not tested",${value})`;
}

function meanTable(sheet: Sheet, { units }: Scenario): void {
  section(sheet, meansHead, ["B", "H"], "Mean of the runs, and of both directions");
  columnHeads(sheet, meansHead + 1, "B", [
    "<quantity",
    "<symbol",
    "depressurization",
    "pressurization",
    "mean",
    "",
    "<<unit",
  ]);
  const list = averaged(units);
  list.forEach((quantity, index) => {
    const row = meansFirst + index;
    const from = runsFirst + 1 + ofOneRun(units).length + index;
    named(sheet, row, quantity);
    const format = decimals(quantity.digits);
    sheet.formula(`D${row}`, meanOfRuns("depressurization", from), native(format));
    sheet.formula(`E${row}`, meanOfRuns("pressurization", from), native(format));
    sheet.addIn(`F${row}`, meanOfDirections(from), style({ bold: true }, fromAddIn(format)));
  });
  const row = meansFirst + list.length;
  const flow = meansFirst + list.findIndex(({ symbol }) => symbol === "q50");
  sheet.put(`B${row}`, "Difference of the two directions, in % of their mean", looks.label);
  sheet.formula(
    `F${row}`,
    `IF(COUNT(D${flow}:E${flow})<2,"",200*ABS(D${flow}-E${flow})/(D${flow}+E${flow}))`,
    native(decimals(1)),
  );
  sheet.put(`H${row}`, "%", looks.unit).paint(`B${row}:H${row}`, looks.label);
}
