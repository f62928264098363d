import { call, writeSpillingCall } from "../blocks/add-in";
import { onSheet, rowsFrom } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import {
  budgetAreas,
  budgetHeads,
  budgetLook,
  budgetRows,
  budgetWidths,
  setBudgetHeights,
} from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { input, looks, native, palette, style } from "../blocks/style";
import { metric } from "../blocks/units";
import { between, oneOf } from "../blocks/validation";
import { assumptionAt, assumptionsFirst, assumptionsIn } from "./assumptions";
import { footer, sheets } from "./layout";
import type { RunPlaces, Runs } from "./run";
import { limitedRow, runCells, runColumnsOf } from "./run-results";
import type { Direction, Scenario } from "./scenario";
import { includedRows, limitedResult, runArguments } from "./whole-test";

/** The tables of UNCERTAINTYBUDGET, one below the other on the sheet Uncertainty. */
const budgetTables = ["mean", "depressurization", "pressurization"] as const;

export type BudgetTable = (typeof budgetTables)[number];

/** What is assumed, and the budgets of both directions and of their mean. */
export function uncertaintyPage(form: Scenario, runs: Runs): Page & { readonly deciding: DecidingBudget } {
  const paper = form.units.system === "SI" ? "a4" : "letter";
  const assumptions = assumptionsIn(form.units);
  const decidesAt = assumptionsFirst + assumptions.length + 3;
  const lastRow = decidesAt + decidingRows - 1;
  const widths = [1.5, 54, 32, 13, 11, 37, 2, 2, ...budgetWidths(paper)];
  const budgets = budgetTables.flatMap((table) => budgetAreas("I", "S", budgetTop(table), paper));
  const sheet = new Sheet(sheets.uncertainty, widths, palette.petrol, {
    orientation: "landscape",
    areas: [`B1:F${decidesAt - 2}`, `B${decidesAt}:F${lastRow}`, ...budgets],
    titleRows: "1:4",
    pages: 2 + budgets.length,
    footer,
    workingPaper: true,
  });
  const lead =
    "The budget by JCGM 100. A value typed here replaces the function’s assumption; a blank leaves it, and its row says so.";
  writePageHead(sheet, letterhead, ["B", "F"], "Uncertainty", lead);
  writePageHead(
    sheet,
    letterhead,
    ["I", "S"],
    "Uncertainty",
    "Below, each source is a row, with what it contributes; then what follows from all of them.",
  );
  // The heads of all three tables stand in the rows that every printed page repeats and the window keeps in sight.
  writeColumnHeads(sheet, 4, "I", budgetHeads);
  sheet.height(29, 4).freeze(4);
  sheet.heightOf(15, 5, budgetTop("pressurization") + budgetRows);
  for (const table of budgetTables) setBudgetHeights(sheet, budgetTop(table), paper);
  writeAssumptionTable(sheet, form);
  writeTapeUncertainty(sheet, assumptionsFirst + assumptions.length, form);
  const [depressurization, pressurization] = [runs[0], runs[2]];
  writeBudget(sheet, "mean", [depressurization, pressurization]);
  writeBudget(sheet, "depressurization", [depressurization]);
  writeBudget(sheet, "pressurization", [pressurization]);
  const deciding = writeDecidingBudget(sheet, decidesAt, runs);
  const names = { VolumeUncertainty: assumptionAt(form.units, "volume uncertainty") };
  return { sheet, names, deciding };
}

/** The first row of a table, its title above it. The tables begin below what is assumed, whose rows are lower. */
function budgetTop(table: BudgetTable): number {
  const first = assumptionsFirst + assumptionsIn(metric).length + decidingRows + 6;
  return first + budgetTables.indexOf(table) * (budgetRows + 4);
}

/** A formula that fetches a cell of a table by its symbol. */
export function inBudget(table: BudgetTable, symbol: string, letter = "K"): string {
  const top = budgetTop(table);
  const column = (letters: string) => onSheet(sheets.uncertainty, `${letters}${top}:${letters}${top + budgetRows - 1}`);
  return `INDEX(${column(letter)},MATCH("${symbol}",${column("J")},0))`;
}

function writeAssumptionTable(sheet: Sheet, { units }: Scenario): void {
  writeHeading(sheet, assumptionsFirst - 2, ["B", "F"], "What is taken as known");
  writeColumnHeads(sheet, assumptionsFirst - 1, "B", ["<what it is", "<setting", "value", "<<unit", "<basis"]);
  assumptionsIn(units).forEach(({ label, what, value, unit, basis, format, highest, words }, index) => {
    const row = assumptionsFirst + index;
    sheet.put(`B${row}`, what, looks.label).put(`C${row}`, label, looks.unit).put(`E${row}`, unit, looks.unit);
    sheet.put(`D${row}`, value, input(format, "right")).put(`F${row}`, basis, looks.noteLine);
    const title = "Assumption";
    sheet.validate(
      words
        ? oneOf(`D${row}`, words, title, what)
        : between(`D${row}`, 0, highest ?? 1000, title, `${what}. Blank leaves it to the function.`),
    );
  });
}

/** The tape's part of the volume's uncertainty, for comparison with what is assumed. */
function writeTapeUncertainty(sheet: Sheet, row: number, { units }: Scenario): void {
  sheet.put(`B${row}`, "For comparison: the tape’s part of the volume’s uncertainty, standard", looks.label);
  sheet.formula(
    `D${row}`,
    'IF(ISNUMBER(TapeUncertainty),IFERROR(TapeUncertainty/InternalVolume,""),"")',
    native("0.0000"),
  );
  sheet
    .put(`E${row}`, "fraction", looks.unit)
    .put(`F${row}`, `from the tolerance in ${units.length}, sheet Rooms`, looks.noteLine);
  sheet.paint(`B${row}:F${row}`, looks.label);
}

const titles: Readonly<Record<BudgetTable, string>> = {
  mean: "Budget of the mean of both directions",
  depressurization: "Budget of depressurization, first run",
  pressurization: "Budget of pressurization, first run",
};

/** One table of UNCERTAINTYBUDGET; with two runs that of their mean, to which the first one's own table is handed. */
function writeBudget(sheet: Sheet, table: BudgetTable, runs: readonly RunPlaces[]): void {
  const top = budgetTop(table);
  writeHeading(sheet, top - 1, ["I", "S"], titles[table]);
  const own = runs.at(-1) as RunPlaces;
  const other =
    runs.length > 1
      ? onSheet(
          sheets.uncertainty,
          `I${budgetTop("depressurization")}:S${budgetTop("depressurization") + budgetRows - 1}`,
        )
      : undefined;
  const made = runs.map(({ readings }) => `COUNTA(${readings})>0`);
  const formula = call(
    "UNCERTAINTYBUDGET",
    ...runArguments(own.form, own.conditions),
    own.settings.test,
    includedRows(own.form),
    other,
  );
  writeSpillingCall(
    sheet,
    `I${top}:S${top + budgetRows - 1}`,
    `IF(AND(${made.join(",")}),${formula},"")`,
    budgetLook,
    runs.every(({ form: { readings } }) => readings !== undefined),
  );
  sheet.when(`K${top}:K${top + budgetRows - 1}`, `K${top}="warning"`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

/** Cells of the budget that belongs to the result which decides. */
export interface DecidingBudget {
  /** Which of the tables it is, in a word; "" while there is none. */
  readonly which: string;
  /** Fractions of the result. */
  readonly standard: string;
  readonly expanded: string;
  readonly freedom: string;
  /** How many of its warnings ask for a look. */
  readonly warnings: string;
}

const warnings = [
  "w_few",
  "w_weak",
  "w_unusable",
  "w_wind",
  "w_extrapolated",
  "w_rows",
  "w_moved",
  "w_scatter",
  "w_missing",
];

/** Rows from the section's head to the last warning. */
const decidingRows = 13 + warnings.length;

/** Uncertainty of the result that decides, as fractions of it, and the warnings of its budget. */
function writeDecidingBudget(sheet: Sheet, at: number, runs: Runs): DecidingBudget {
  writeHeading(sheet, at, ["B", "F"], "The budget that decides");
  const { which, result, standard, area, out, into, total, freedom, factor, expanded } = rowsFrom(
    at + 1,
    "which",
    "result",
    "standard",
    "area",
    "out",
    "into",
    "total",
    "freedom",
    "factor",
    "expanded",
  );
  const tested = (index: 0 | 2) => `COUNTA(${runs[index].readings})>0`;
  const alone = `IF(${tested(0)},"depressurization",IF(${tested(2)},"pressurization",""))`;
  const chosen = `IF(AND(${tested(0)},OR(IFERROR(TargetDirections,"")="depressurization",NOT(${tested(2)}))),"depressurization",IF(AND(${tested(0)},${tested(2)}),"mean",${alone}))`;
  const pick = (symbol: string, letter?: string) => {
    const from = (table: BudgetTable, otherwise: string) => {
      const cell = inBudget(table, symbol, letter);
      // Words and notes as text; a blank number stays blank rather than turning into 0.
      const kept = letter ? `${cell}&""` : `IF(${cell}="","",${cell})`;
      return `IF($D$${which}="${table}",${kept},${otherwise})`;
    };
    return from("mean", from("depressurization", from("pressurization", '""')));
  };
  // Two runs: the standard deviation of their mean is half their difference, with one degree of freedom; a mean of both directions halves it again.
  const scatter = (direction: Direction) => {
    const there = (one: Direction) => onSheet(sheets.results, runCells(one, limitedRow));
    const cells = there(direction);
    const [one, other] = runColumnsOf(direction).map((letter) => onSheet(sheets.results, `${letter}${limitedRow}`));
    const half = `ABS(${one}-${other})/2`;
    const both = `AVERAGE(${there("depressurization")})+AVERAGE(${there("pressurization")})`;
    const relative = `IF($D$${which}="mean",${half}/(${both}),IF($D$${which}="${direction}",${half}/AVERAGE(${cells}),0))`;
    return `IF($D$${which}="","",IF(COUNT(${cells})<2,0,IFERROR(${relative},0)))`;
  };
  const scatterNote = "half their difference (JCGM 100 4.2.3)";
  const isScattered = `IF(COUNT(D${out}:D${into},D${standard})=3,D${out}+D${into}>0,FALSE)`;
  const scattered = `D${out}^2+D${into}^2`;
  // By Welch and Satterthwaite, rounded down; the budget's own term is nothing where its degrees of freedom are infinite.
  const ofBudget = `IF(COUNT(${pick("dof")})=0,0,(D${standard}^2+D${area}^2)^2/MAX(1,${pick("dof")}))`;
  const effective = `MAX(1,MIN(1000000,INT(D${total}^4/(${ofBudget}+D${out}^4+D${into}^4))))`;
  const { units } = runs[0].form;
  const areaShare = assumptionAt(units, "envelope area uncertainty");
  const lines: readonly (readonly [
    row: number,
    label: string,
    formula: string,
    format: string | undefined,
    note: string,
  ])[] = [
    [which, "Whose budget", chosen, undefined, "that of the first runs"],
    [result, "Result of the whole test that is limited", limitedResult, undefined, "from the criterion"],
    [standard, "Combined standard uncertainty, relative", pick("u_rel"), "0.0000", "from the table"],
    [
      area,
      "The envelope area’s, where a leakage area is limited per area",
      `IF($D$${which}="","",IF(${limitedResult}="EqLA10",IF(${areaShare}="",0.02,${areaShare}),0))`,
      "0.0000",
      "added in squares",
    ],
    [out, "Scatter of the runs of depressurization, relative", scatter("depressurization"), "0.0000", scatterNote],
    [into, "Scatter of the runs of pressurization, relative", scatter("pressurization"), "0.0000", scatterNote],
    [
      total,
      "All of them, relative",
      `IF(COUNT(D${standard})=0,IF($D$${which}="","",NA()),SQRT(D${standard}^2+D${area}^2+${scattered}))`,
      "0.0000",
      "added in squares",
    ],
    [
      freedom,
      "Degrees of freedom",
      `IF(${isScattered},${effective},${pick("dof")})`,
      "0",
      "JCGM 100 G.4.1; blank: infinite",
    ],
    [
      factor,
      "Student’s t",
      `IF(${isScattered},_xlfn.T.INV.2T(1-ConfidenceLevel,D${freedom}),${pick("t")})`,
      "0.000",
      "at the confidence chosen",
    ],
    [
      expanded,
      "Expanded uncertainty U, relative",
      `IF(COUNT(D${total},D${factor})<2,IF($D$${which}="","",NA()),D${factor}*D${total})`,
      "0.0000",
      "t · u",
    ],
  ];
  for (const [row, label, formula, format, note] of lines) {
    sheet.put(`B${row}`, label, looks.label).formula(`D${row}`, formula, native(format));
    if (row !== expanded) sheet.put(`F${row}`, note, looks.noteLine);
    else sheet.formula(`F${row}`, `IF(ISERROR(D${row}),"none can be given: see the tables","${note}")`, looks.noteLine);
    sheet.paint(`B${row}:F${row}`, looks.label);
  }
  const first = expanded + 2;
  // The table itself shows the error; its warnings need not repeat it.
  const quiet = (formula: string) => `IFERROR(${formula},"")`;
  sheet.put(`B${first - 1}`, "Warnings of this budget", looks.group);
  warnings.forEach((symbol, index) => {
    const row = first + index;
    sheet.formula(`B${row}`, quiet(`IF($D$${which}="","",${pick(symbol, "I")})`), looks.label);
    sheet
      .formula(`D${row}`, quiet(pick(symbol)), native())
      .formula(`E${row}`, quiet(pick(symbol, "S")), style({ wrap: false, shrink: true }, looks.note));
    sheet.merge(`E${row}:F${row}`);
    sheet.paint(`C${row}:F${row}`, looks.label);
  });
  const words = `D${first}:D${first + warnings.length - 1}`;
  sheet.when(words, `D${first}="warning"`, { font: { bold: true, color: { rgb: palette.fail } } });
  const place = (row: number) => onSheet(sheets.uncertainty, `D${row}`);
  return {
    which: place(which),
    standard: place(total),
    expanded: place(expanded),
    freedom: place(freedom),
    warnings: `COUNTIF(${onSheet(sheets.uncertainty, words)},"warning")`,
  };
}
