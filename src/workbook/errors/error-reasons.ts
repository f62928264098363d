import { type SheetArea, isSingleCell, sizeOf } from "../book/area";
import { formatList } from "../formatting";
import { shorten } from "../file/problem";
import { FormulaReader, type FormulaReads } from "../book/formula-reads";
import type { EvaluatedCell, Evaluation } from "../formula/evaluation";
import { formatSheetArea } from "../book/address";
import { type Area, type Book, buildCellKey, type CellValue, ErrorValue } from "../model";

/** An area with more cells than this is not a form row worth pointing to. */
const mostCells = 60;

/** Why a formula gives an error, in words; `isBlank` if it is waiting for blank cells. */
interface Why {
  readonly text: string;
  readonly isBlank: boolean;
}

/** Why a formula without its own message gives an error, judging by the cells it reads. */
export class ErrorReasons {
  private readonly reader: FormulaReader;
  private readonly cells: ReadonlyMap<string, EvaluatedCell>;
  /** Formulas for a whole table that failed, leaving the cells they had filled blank. */
  private readonly failedTables: readonly EvaluatedCell[];

  constructor(
    private readonly book: Book,
    evaluation: Evaluation,
    private readonly valueAt: (sheet: number, row: number, column: number) => CellValue,
  ) {
    this.reader = new FormulaReader(book);
    this.cells = new Map(evaluation.cells.map((cell) => [`${cell.sheet},${cell.row},${cell.column}`, cell]));
    this.failedTables = evaluation.cells.filter(
      ({ role, outcome, sheet, row, column }) =>
        role === "formula" &&
        outcome.evaluated &&
        outcome.value instanceof ErrorValue &&
        book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.formula?.array !== undefined,
    );
  }

  /** Whether a formula merely looks up what a failed table would have held, or waits for a cell kept blank by an error elsewhere. */
  follows(cell: EvaluatedCell, text: string, { code, reason, problem }: ErrorValue): boolean {
    const reads = this.reader.reads(text, cell);
    if (reason === "") return code === "#N/A" && this.readsFailedTable(reads);
    // A result is missing because of an earlier error.
    if (cell.afterError && problem?.code === "noResult") return true;
    const label = problem && missingSetting(problem);
    return label !== undefined && reads.areas.some((area) => this.restsOnError(area, label));
  }

  /** What a person can fix, in words; undefined if the cells do not show it. */
  explainError(cell: EvaluatedCell, text: string, error: ErrorValue): Why | undefined {
    const reads = this.reader.reads(text, cell);
    const told = this.explainReads(reads, error);
    const blanks = told === undefined && error.code === "#N/A" ? this.explainBlanks(reads) : undefined;
    const words = told ?? blanks;
    return words === undefined ? undefined : { text: words, isBlank: blanks !== undefined };
  }

  private explainReads(reads: FormulaReads, { code }: ErrorValue): string | undefined {
    if (code === "#N/A") {
      const text = this.describeTexts(reads.numbersOnly, (one) => one !== "") ?? this.explainNumberAsText(reads);
      return this.explainNotFound(reads) ?? text;
    }
    if (code === "#VALUE!") return this.explainNumberAsText(reads) ?? this.explainTextOperand(reads);
    if (code === "#DIV/0!") return this.explainDivisor(reads);
    return undefined;
  }

  private explainNotFound({ lookUps }: FormulaReads): string | undefined {
    for (const { wanted, list } of lookUps) {
      const isCell = typeof wanted === "object" && wanted !== null && "sheet" in wanted;
      if (isCell && !isSingleCell(wanted)) continue;
      const value = isCell ? this.valueAt(wanted.sheet, wanted.top, wanted.left) : wanted;
      if (value === null || value === "" || value instanceof ErrorValue || this.isBlank(list)) continue;
      if (this.listValues(list).some((one) => isSame(one, value))) continue;
      const from = isCell ? ` (${this.name(wanted)})` : "";
      return `${typeof value === "string" ? `"${shorten(value)}"` : String(value)}${from} is not in ${this.name(list)}`;
    }
    return undefined;
  }

  /** "6.35 m" or "1,5", meant as a number. */
  private explainNumberAsText(reads: FormulaReads): string | undefined {
    return this.describeTexts(reads.areas.filter(isSmall), (text) => /^\s*[-+−]?[.,]?\d/.test(text));
  }

  private explainTextOperand({ operands }: FormulaReads): string | undefined {
    return this.describeTexts(operands, (text) => text !== "");
  }

  private describeTexts(areas: readonly SheetArea[], counts: (text: string) => boolean): string | undefined {
    for (const area of areas) {
      for (const place of listPlaces(area)) {
        const value = this.valueAt(place.sheet, place.top, place.left);
        if (typeof value === "string" && counts(value)) return `${this.name(place)} holds the text "${shorten(value)}"`;
      }
    }
    return undefined;
  }

  private explainBlanks({ areas }: FormulaReads): string | undefined {
    const blank = areas.flatMap((area) => {
      if (this.isBlank(area)) return [area];
      return isRowOfForm(area) ? [...listPlaces(area)].filter((place) => this.isBlank(place)) : [];
    });
    const names = [...new Set(blank.map((area) => this.name(area)))];
    return names.length === 0 ? undefined : `${formatList(names, 4)} ${names.length === 1 ? "is" : "are"} blank`;
  }

  private explainDivisor({ divisors }: FormulaReads): string | undefined {
    for (const place of divisors) {
      const value = this.valueAt(place.sheet, place.top, place.left);
      if (value === 0) return `${this.name(place)} is 0`;
      if (value === null) return `${this.name(place)} is blank`;
    }
    return undefined;
  }

  private readsFailedTable({ lookUps, areas }: FormulaReads): boolean {
    if (this.failedTables.length === 0) return false;
    const lists = lookUps.map(({ list }) => list);
    const cells = areas.filter(isSingleCell);
    return [...lists, ...cells].some((area) => this.isBlank(area) && this.isOfFailedTable(area));
  }

  /** Right of and below the table's own cell, with nothing in between. */
  private isOfFailedTable({ sheet, top, left, right, bottom }: SheetArea): boolean {
    return this.failedTables.some((table) => {
      if (table.sheet !== sheet || table.column > left || table.row > bottom) return false;
      const from = Math.max(top, table.row);
      const beside = { sheet, top: from, bottom: from, left: table.column, right };
      const above = { sheet, top: table.row, bottom: from, left, right: left };
      return this.isBlankBut(beside, table) && this.isBlankBut(above, table);
    });
  }

  private isBlankBut(area: SheetArea, { row, column }: EvaluatedCell): boolean {
    return [...listPlaces(area)].every((place) => {
      if (place.top === row && place.left === column) return true;
      const value = this.valueAt(place.sheet, place.top, place.left);
      return value === null || value === "";
    });
  }

  private restsOnError(area: SheetArea, label: string): boolean {
    return [...listPlaces(area)].some(({ sheet, top, left }) => {
      if (this.valueAt(sheet, top, left) !== label) return false;
      return this.cells.get(`${sheet},${top},${left + 1}`)?.afterError === true;
    });
  }

  private isBlank(area: SheetArea): boolean {
    return this.listValues(area).every((value) => value === null || value === "");
  }

  private listValues(area: SheetArea): CellValue[] {
    return [...listPlaces(area)].map(({ sheet, top, left }) => this.valueAt(sheet, top, left));
  }

  private name(area: SheetArea): string {
    return formatSheetArea(area, this.book.sheets[area.sheet]?.name ?? "");
  }
}

/** The label of the setting that an error is waiting for; undefined if none. */
function missingSetting({ kind, setting, data }: NonNullable<ErrorValue["problem"]>): string | undefined {
  if (kind !== "missing") return undefined;
  return setting ?? (data as { readonly label?: string } | undefined)?.label;
}

function isSame(one: CellValue, other: CellValue): boolean {
  return typeof one === "string" && typeof other === "string"
    ? one.toLowerCase() === other.toLowerCase()
    : one === other;
}

/** A few adjacent cells that all belong together; a longer range may well have spare cells. */
function isRowOfForm(area: Area): boolean {
  return sizeOf(area) <= 6;
}

function isSmall(area: Area): boolean {
  return sizeOf(area) <= mostCells;
}

/** The cells of an area one by one; for whole columns only as far down as a form extends. */
function* listPlaces({ sheet, top, left, bottom, right }: SheetArea): Generator<SheetArea> {
  for (let row = top; row <= Math.min(bottom, top + 2000); row += 1)
    for (let column = left; column <= Math.min(right, left + 100); column += 1)
      yield { sheet, top: row, bottom: row, left: column, right: column };
}
