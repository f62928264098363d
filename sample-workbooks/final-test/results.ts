import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, probabilityFormat, style } from "../blocks/style";
import { checkRows, checksSection } from "./checks";
import { ofCriterion } from "./criteria";
import { footer, type ResultPlaces, sheets } from "./layout";
import type { Runs } from "./run";
import {
  averaged,
  isTested,
  limitedRow,
  meanOfDirections,
  meanOfRuns,
  ofOneRun,
  type Quantity,
  quantityCount,
  runColumns,
  runsFirst,
  untested,
  untestedYet,
} from "./run-results";
import type { Direction, Scenario } from "./scenario";
import type { DecidingBudget } from "./uncertainty";
import { limitedQuantity, writeVerdict } from "./verdict";

/** Rows below the table of runs. */
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
  const sheet = new Sheet(sheets.results, [1.5, 45, 12, 15, 14.5, 15, 14, 11, 3, 3, 36, 14, 14], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:H${verdictAt - 1}`, `B${verdictAt}:H${lastRow}`],
    pages: 2,
    titleRows: "1:4",
    footer,
    workingPaper: true,
  });
  const lead =
    "Every run, the mean of the runs of a direction, and the mean of both: of the derived results, never of C and n.";
  writePageHead(sheet, letterhead, ["B", "H"], "Results", lead);
  sheet.heightOf(13.5, 5, lastRow);
  writeRunTable(sheet, form, runs);
  writeMeanTable(sheet, form);
  const word = (direction: Direction) => `IF(${isTested(direction)},"yes","no")`;
  const words = [word("depressurization"), word("pressurization")] as const;
  const checked = checksSection(sheet, checksAt, runs, words, budget);
  const verdict = writeVerdict(sheet, verdictAt, runs, { ...checked, budget });
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
  return { sheet, names: { Summary: place(writeSummary(sheet, 5, places, form)) }, places };
}

function writeQuantityName(sheet: Sheet, row: number, { label, shown, unit }: Quantity): void {
  sheet.rich(`B${row}`, label, looks.label).rich(`C${row}`, shown, looks.label).rich(`H${row}`, unit, looks.unit);
  sheet.paint(`B${row}:H${row}`, looks.label);
}

/** A run without readings is said to be so, rather than printing as an error. */
function writeRunTable(sheet: Sheet, { units }: Scenario, runs: Runs): void {
  writeHeading(sheet, 5, ["B", "H"], "Run by run");
  const heads = ["depressurization", "second run", "pressurization", "second run"];
  writeColumnHeads(sheet, 6, "B", ["<quantity", "<symbol", ...heads, "<<unit"]);
  sheet.put(`B${runsFirst}`, "Has readings", looks.label);
  runs.forEach(({ readings }, index) => {
    sheet.formula(`${runColumns[index]}${runsFirst}`, `IF(COUNTA(${readings})>0,"yes","no")`, native());
  });
  sheet.paint(`B${runsFirst}:H${runsFirst}`, looks.label);
  [...ofOneRun(units), ...averaged(units)].forEach((quantity, index) => {
    const row = runsFirst + 1 + index;
    writeQuantityName(sheet, row, quantity);
    runs.forEach(({ wholeTest }, which) => {
      const value = wholeTest[quantity.column ?? "value"](quantity.symbol);
      sheet.formula(`${runColumns[which]}${row}`, ifMade(which, value), native(decimals(quantity.digits)));
    });
  });
  sheet.formula(
    `B${limitedRow}`,
    ofCriterion('"Limited: "&TargetQuantity&" at "&TargetPressure&" Pa"', '"Limited result"'),
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
  return `IF($${runColumns[which]}$${runsFirst}="no",${untested},${value})`;
}

function writeMeanTable(sheet: Sheet, { units }: Scenario): void {
  writeHeading(sheet, meansHead, ["B", "H"], "Mean of the runs, and of both directions");
  writeColumnHeads(sheet, meansHead + 1, "B", [
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
    writeQuantityName(sheet, row, quantity);
    const format = decimals(quantity.digits);
    sheet.formula(`D${row}`, meanOfRuns("depressurization", from), native(format));
    sheet.formula(`E${row}`, meanOfRuns("pressurization", from), native(format));
    sheet.addIn(`F${row}`, meanOfDirections(from, untestedYet), style({ bold: true }, fromAddIn(format)));
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

function writeLines(
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
export function writeKeyResults(sheet: Sheet, at: number, results: ResultPlaces, form: Scenario): void {
  writeHeading(sheet, at, ["F", "H"], "Key results");
  const lines = linesOf(results, form).filter(({ inPanel }) => !inPanel);
  writeLines(sheet, at + 1, ["F", "G", "H"], lines);
}

/** All results as label, value and unit, beside the page; the range goes by the name Summary, which the recalculation prints. */
function writeSummary(sheet: Sheet, at: number, results: ResultPlaces, form: Scenario): string {
  writeHeading(sheet, at, ["K", "M"], "Summary (not printed)");
  const lines = linesOf(results, form);
  writeLines(sheet, at + 1, ["K", "L", "M"], lines);
  const rowOf = (label: string) => at + 1 + lines.findIndex((line) => line.label === label);
  for (const label of [deciding, upper]) sheet.moreDigitsNear(`L${rowOf(label)}`, `L${rowOf(limit)}`);
  return `K${at + 1}:M${at + lines.length}`;
}
