import { onSheet } from "../blocks/address";
import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { looks, native, palette, style } from "../blocks/style";
import { type BudgetTable, inBudget } from "./budget-places";
import type { Runs } from "./direction";
import { sheets } from "./places";
import { limitedResult } from "./settings-block";
import { assumptionAt } from "./uncertainty-places";

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
export const decidingRows = 10 + warnings.length;

/** Uncertainty of the result that decides, as fractions of it, and the warnings of its budget. */
export function decidingBudget(sheet: Sheet, at: number, runs: Runs): DecidingBudget {
  section(sheet, at, ["B", "F"], "The budget that decides");
  const [which, result, standard, area, freedom, factor, expanded] = [1, 2, 3, 4, 5, 6, 7].map(
    (offset) => at + offset,
  ) as [number, number, number, number, number, number, number];
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
      `IF(${limitedResult}="EqLA10",IF(${areaShare}="",0.02,${areaShare}),0)`,
      "0.0000",
      "added in squares",
    ],
    [freedom, "Degrees of freedom", pick("dof"), "0", "blank: infinite"],
    [factor, "Student’s t", pick("t"), "0.000", ""],
    [
      expanded,
      "Expanded uncertainty U, relative",
      `IF(COUNT(D${standard},D${factor})<2,IF($D$${which}="","",NA()),D${factor}*SQRT(D${standard}^2+D${area}^2))`,
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
    standard: `SQRT(${place(standard)}^2+${place(area)}^2)`,
    expanded: place(expanded),
    freedom: place(freedom),
    warnings: `COUNTIF(${onSheet(sheets.uncertainty, words)},"warning")`,
  };
}
