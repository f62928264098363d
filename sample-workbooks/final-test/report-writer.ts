import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { CellStyle } from "../blocks/hucre";
import { heightFor, type Sheet } from "../blocks/sheet";
import { looks, native, style } from "../blocks/style";
import type { Runs } from "./run";

type Labelled = readonly [label: string, formula: string, format?: string];
type Column = readonly [from: string, to: string, formula: string, format?: string];

/** The report while it is written from the top down, on twelve narrow columns from B to M that every table merges in its own way. */
export class ReportWriter {
  private row = 5;

  constructor(private readonly sheet: Sheet) {}

  /** The row that is written next. */
  get next(): number {
    return this.row;
  }

  skip(rows = 1): void {
    if (rows === 1) this.sheet.height(8, this.row);
    this.row += rows;
  }

  /** Rows that are left out of a copy for the client where they hold nothing between these columns. */
  foldable(left: string, right: string, write: () => void): void {
    const first = this.row;
    write();
    this.sheet.fold(`${left}${first}:${right}${this.row - 1}`);
  }

  heading(title: string): void {
    writeHeading(this.sheet, this.row, ["B", "M"], title);
    this.sheet.height(18, this.row);
    this.row += 1;
  }

  /** A label and a formula beside it, across the page. */
  line(label: string, formula: string, height = 14): void {
    const { row, sheet } = this;
    sheet.rich(`B${row}`, label, looks.label).merge(`B${row}:D${row}`);
    sheet.formula(`E${row}`, formula, style({ align: "left", wrap: true }, native(undefined, "left")));
    sheet.merge(`E${row}:M${row}`).height(height, row);
    this.row += 1;
  }

  /** Two labels with their formulas, side by side. */
  pair(left: Labelled, right?: Labelled): void {
    const { row, sheet } = this;
    const places = [
      [left, "B", "B", "C", "G"],
      [right, "H", "I", "J", "M"],
    ] as const;
    for (const [labelled, from, to, value, last] of places) {
      if (!labelled) continue;
      const [label, formula, format] = labelled;
      sheet.rich(`${from}${row}`, label, looks.label);
      if (from !== to) sheet.merge(`${from}${row}:${to}${row}`);
      const look = style({ shrink: true }, native(format, "left"));
      sheet.formula(`${value}${row}`, formula, look).merge(`${value}${row}:${last}${row}`);
    }
    sheet.height(14, row);
    this.row += 1;
  }

  /** A formula that gives a sentence, across the page. */
  sentence(formula: string, height = 14): void {
    this.sheet
      .formula(`B${this.row}`, formula, looks.textLine)
      .merge(`B${this.row}:M${this.row}`)
      .height(height, this.row);
    this.row += 1;
  }

  /** A sentence that belongs to the form. */
  words(text: string): void {
    this.sheet.put(`B${this.row}`, text, looks.note).merge(`B${this.row}:M${this.row}`);
    this.sheet.height(heightFor(text, 94, 8), this.row);
    this.row += 1;
  }

  /** Heads over columns that may span several cells. */
  heads(columns: readonly (readonly [from: string, to: string, words: string])[]): void {
    const { row, sheet } = this;
    for (const [from, to, words] of columns) {
      writeColumnHeads(sheet, row, from, [words]);
      if (from !== to) sheet.merge(`${from}${row}:${to}${row}`);
    }
    sheet.paint(`B${row}:M${row}`, looks.columnHead).height(14, row);
    this.row += 1;
  }

  private lookOf(format: string | undefined): CellStyle {
    const words = style({ shrink: true }, native(undefined, "left"));
    if (format === undefined) return words;
    if (format === "unit") return looks.unit;
    if (format === "sentence") return style({ size: 8, wrap: true }, native(undefined, "left"));
    return format === "word" ? style({ size: 8, align: "center" }, words) : native(format);
  }

  /** A row of formulas in such columns; numbers have a format, units, words beside a number and sentences are called so, everything else is set to the left. */
  cells(columns: readonly Column[], height = 12.6): void {
    const { row, sheet } = this;
    for (const [from, to, formula, format] of columns) {
      const look = this.lookOf(format);
      sheet.formula(`${from}${row}`, formula, look);
      if (from !== to) sheet.merge(`${from}${row}:${to}${row}`);
    }
    sheet.paint(`B${row}:M${row}`, looks.label).height(height, row);
    this.row += 1;
  }
}

/** The two columns that belong to each run, in every table of the report. */
export const runColumns = [
  ["F", "G"],
  ["H", "I"],
  ["J", "K"],
  ["L", "M"],
] as const;

/** Heads over the columns of the runs. */
export function runHeads(runs: Runs): (readonly [from: string, to: string, words: string])[] {
  return runs.map(({ direction, run }, index) => {
    const [from = "", to = ""] = runColumns[index] ?? [];
    return [from, to, run === 1 ? direction : "second run"] as const;
  });
}

/** One row over the runs; a run that was not made is blank. */
export function writeRunRow(
  writer: ReportWriter,
  runs: Runs,
  label: string,
  format: string,
  cell: (run: Runs[number]) => string,
): void {
  writer.cells([
    ["B", "E", `"${label}"`],
    ...runs.map((run, index) => {
      const [from = "", to = ""] = runColumns[index] ?? [];
      return [from, to, `IF(COUNTA(${run.readings})=0,"",${cell(run)})`, format] as const;
    }),
  ]);
}
