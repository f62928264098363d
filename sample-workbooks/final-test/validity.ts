import { type CheckName, checkNames } from "../../src/core/index";
import { call, writeSpillingCall } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import type { CellStyle } from "../blocks/hucre";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, palette, style } from "../blocks/style";
import { footer, sheets } from "./layout";
import type { Runs } from "./run";
import { includedRows, runArguments } from "./whole-test";

const first = 7;
/** A table of one run, with a blank row below it. */
const step = checkNames.length + 1;
/** A table prints on two pages, without its last column: what to do is for the screen, while something can still be done. */
const half = Math.ceil(checkNames.length / 2);

/** Ranges that the verdict and the findings read. */
export interface ValidityPlaces {
  /** The whole tables of all runs, one below the other. */
  readonly tables: string;
  readonly labels: string;
  readonly symbols: string;
  readonly outcomes: string;
  readonly weights: string;
  /** A cell of one check of one run, both counted from 0. */
  readonly check: (run: number, check: number, letter: string) => string;
}

const last = first + 4 * step - 2;

/** The checks of the standard that is chosen, every run in a table of its own; the verdict reads all of them. */
export function validityPage(runs: Runs): Page {
  const sheet = new Sheet(sheets.validity, [1.5, 17, 34.5, 15, 9.5, 13.5, 8, 11, 10, 55, 60], palette.petrol, {
    orientation: "landscape",
    areas: [0, 1, 2, 3].flatMap((run) => {
      const top = first + run * step;
      return [`B${run === 0 ? 1 : top}:J${top + half - 1}`, `B${top + half}:J${top + step - 2}`];
    }),
    pages: 8,
    titleRows: "1:6",
    footer,
    workingPaper: true,
  });
  const lead =
    "Whether each run is valid by the standard chosen on the sheet Criteria. A binding check that is not met, or cannot be judged, stands in the way of a verdict.";
  writePageHead(sheet, letterhead, ["B", "J"], "Checks of validity", lead);
  sheet.heightOf(13, 5, 6).heightOf(27, first, last).freeze(6);
  writeHeading(sheet, 5, ["B", "K"], "Every check, measured against its limit");
  writeColumnHeads(sheet, 6, "B", [
    "<run",
    "<check",
    "<symbol",
    "measured",
    "<<limit",
    "<unit",
    "<outcome",
    "<weight",
    "<clause",
    "<what to do",
  ]);
  // The longest name of a check takes three lines.
  runs.forEach((_, index) => sheet.height(38, first + index * step + checkNames.indexOf("ci_qE75")));
  runs.forEach((run, index) => {
    const top = first + index * step;
    const bottom = top + checkNames.length - 1;
    sheet.put(`B${top}`, run.direction, style({ bold: true, size: 8, wrap: false }, looks.text));
    if (run.run === 2) sheet.put(`B${top + 1}`, "second run", looks.text);
    sheet.formula(`B${top + 2}`, `IF(COUNTA(${run.readings})=0,"not tested","")`, looks.note);
    const checks = call(
      "VALIDITYCHECKS",
      ...runArguments(run.form, run.conditions),
      run.settings.checks,
      includedRows(run.form),
    );
    writeSpillingCall(
      sheet,
      `C${top}:K${bottom}`,
      `IF(COUNTA(${run.readings})=0,"",${checks})`,
      look,
      run.form.readings !== undefined,
    );
  });
  const outcomes = `H${first}:H${last}`;
  sheet.when(outcomes, `H${first}="not met"`, { font: { bold: true, color: { rgb: palette.fail } } });
  sheet.when(outcomes, `H${first}="cannot be judged"`, { font: { bold: true, color: { rgb: palette.open } } });
  return { sheet, names: {} };
}

function column(letter: string): string {
  return onSheet(sheets.validity, `${letter}${first}:${letter}${last}`);
}

export const validityPlaces: ValidityPlaces = {
  tables: onSheet(sheets.validity, `C${first}:K${last}`),
  labels: column("C"),
  symbols: column("D"),
  outcomes: column("H"),
  weights: column("I"),
  check: (run, check, letter) => onSheet(sheets.validity, `${letter}${first + run * step + check}`),
};

const words = fromAddIn(undefined, "left");
const small = style({ size: 8, colour: palette.grey }, words);
const looksOfColumns: readonly CellStyle[] = [
  style({ wrap: true }, words),
  style({ wrap: true }, small),
  style({ wrap: true }, fromAddIn()),
  style({ wrap: true, indent: 1 }, words),
  style({ wrap: true }, small),
  style({ wrap: true }, words),
  small,
  style({ wrap: true }, small),
  style({ wrap: true }, small),
];

/** Digits of what is measured, where they are not two. */
export const checkDigits: Readonly<Partial<Record<CheckName, number>>> = {
  count_dp0: 0,
  count: 0,
  dp0_of_min: 1,
  reading_of_min: 1,
  dp_span: 1,
  dp_step: 1,
  n: 3,
  r2: 5,
  r: 5,
  height_dT: 0,
  wind: 1,
  beaufort: 0,
  gauge_days: 0,
  fan_days: 0,
  n50: 3,
  q50_apart: 1,
  dp0_range: 1,
  zeros_dp0: 0,
  theta_e: 1,
  ci_q50: 1,
  ci_qE75: 3,
};

function look(row: number, column: number): CellStyle {
  const plain = looksOfColumns[column] ?? words;
  const name = checkNames[row];
  return column === 2 && name ? style({ format: decimals(checkDigits[name] ?? 2) }, plain) : plain;
}
