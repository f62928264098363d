import { formatCellAddress, parseArea, parsePlace } from "../../book/address";
import {
  type Area,
  type Cell,
  buildCellKey,
  type CellValue,
  type ErrorCode,
  ErrorValue,
  type Formula,
  type Sheet,
} from "../../model";
import type { Archive } from "../archive";
import { limits } from "../limits";
import { sentence, shorten, WorkbookProblem } from "../problem";
import { StringItem } from "../xml/text";
import { combineReaders, parseBoolean, type XmlPart, type XmlReader } from "../xml/xml";
import { FormulaReader, findOverlappingFormulas } from "./formulas";
import { parseCellValue, type ValueContext } from "./values";

/** What a sheet's cells refer to outside their own part, and the count of cells of all sheets so far. */
export interface SheetContext {
  readonly strings: readonly string[];
  readonly formats: readonly string[];
  readonly dynamicMarks: ReadonlySet<number>;
  /** The true kinds of errors stored as #VALUE!, by the cell's `vm`. */
  readonly richErrors: ReadonlyMap<number, ErrorCode>;
  readonly date1904: boolean;
  readonly mostCells: number;
  cellCount: number;
  /** Characters of all formulas, shared ones expanded, so far. */
  formulaLength: number;
}

/** Cells that a caution mentions: how many, and the first of them. */
interface Noted {
  readonly count: number;
  readonly first: string;
}

/** A sheet's contents, before the workbook's own list adds its name and visibility. */
type SheetContent = Omit<Sheet, "name" | "visibility"> & {
  /** A filter of the sheet hides rows: its own or an advanced one, of which the sheet records no range. */
  readonly isFilterAtWork: boolean;
  readonly transitionRules: boolean;
  /** The cells whose style does not exist. */
  readonly unstyled?: Noted;
  /** The cells with a date before March 1900 in ISO form. */
  readonly earlyDates?: Noted;
};

/**
 * Streams one sheet part (ECMA-376 part 1, 18.3.1.99); cells with only a style are skipped, so they cost nothing.
 * @param other Reads the same part along with it.
 */
export function readSheet(
  archive: Archive,
  partName: string,
  root: string,
  context: SheetContext,
  other?: XmlReader,
): SheetContent {
  const reader = new SheetReader(partName, context);
  archive.read(partName, other ? combineReaders(reader, other) : reader, root);
  return reader.finish();
}

type Attributes = Record<string, string>;

class SheetReader implements XmlReader {
  private readonly cells = new Map<number, Cell>();
  private readonly hiddenRows = new Set<number>();
  private readonly frame = new SheetFrame();
  private readonly formulas: FormulaReader;
  private readonly inlineString = new StringItem();
  private readonly valueContext: ValueContext;

  private insideData = false;
  private insideCell = false;
  private insideInline = false;
  private row = -1;
  private column = -1;
  private cell: Attributes = {};
  private formula: Attributes | undefined;
  private formulaText = "";
  private valueText: string | undefined;
  private collecting: "v" | "f" | undefined;
  private unstyled: Noted | undefined;
  private earlyDates: Noted | undefined;

  constructor(
    private readonly partName: string,
    private readonly context: SheetContext,
  ) {
    this.valueContext = {
      strings: context.strings,
      date1904: context.date1904,
      noteEarlyDate: () => (this.earlyDates = this.noteCell(this.earlyDates)),
      problem: (what) => this.describeProblem(`the cell ${formatCellAddress(this.row, this.column)} ${what}`),
    };
    this.formulas = new FormulaReader(context, (what) => this.valueContext.problem(what));
  }

  open(name: string, attributes: Attributes, part: XmlPart): void {
    if (this.insideInline) return this.inlineString.open(name, attributes, part);
    if (this.insideCell) return this.openInCell(name, attributes, part);
    if (this.insideData) {
      if (name === "row") this.startRow(attributes);
      else if (name === "c") this.startCell(attributes);
    } else if (name === "sheetData") this.insideData = true;
    else this.frame.open(name, attributes);
  }

  close(name: string, part: XmlPart): void {
    if (this.insideInline) {
      this.inlineString.close(name, part);
      if (name === "is") this.insideInline = false;
    } else if (name === "c" && this.insideCell) this.endCell();
    else if (this.collecting === name) {
      this.collecting = undefined;
      part.ignoreText();
    } else if (name === "sheetData") this.insideData = false;
  }

  addText(text: string): void {
    if (this.insideInline) this.inlineString.addText(text);
    else if (this.collecting === "v") this.valueText = (this.valueText ?? "") + text;
    else if (this.collecting === "f") this.formulaText += text;
  }

  finish(): SheetContent {
    const { cells, hiddenRows, frame } = this;
    const overlapping = findOverlappingFormulas(cells);
    if (overlapping) {
      const [one, other] = overlapping.map(({ row, column }) => formatCellAddress(row, column));
      throw this.describeProblem(`the formulas of ${one} and ${other} fill the same cell`);
    }
    const { hiddenColumns, mergedAreas, isFilterAtWork, transitionRules } = frame;
    const filteredRows = new Set<number>();
    const content = {
      cells,
      hiddenRows,
      hiddenColumns,
      filteredRows,
      mergedAreas,
      isFilterAtWork,
      transitionRules,
    };
    return {
      ...content,
      ...(this.unstyled && { unstyled: this.unstyled }),
      ...(this.earlyDates && { earlyDates: this.earlyDates }),
    };
  }

  private startRow(attributes: Attributes): void {
    const number = attributes["r"];
    this.row = number === undefined ? this.row + 1 : Number(number) - 1;
    this.column = -1;
    if (!Number.isInteger(this.row) || this.row < 0 || this.row >= limits.rows) {
      throw this.describeProblem(sentence`there is a row "${number ?? this.row + 1}"; a sheet has ${limits.rows} rows`);
    }
    if (parseBoolean(attributes["hidden"])) this.hiddenRows.add(this.row);
  }

  private startCell(attributes: Attributes): void {
    const address = attributes["r"];
    if (address === undefined) {
      if (++this.column >= limits.columns)
        throw this.describeProblem(`row ${this.row + 1} has more than ${limits.columns} cells`);
    } else {
      const place = parsePlace(address);
      if (!place || place.row !== this.row)
        throw this.describeProblem(sentence`the cell "${address}" is in row ${this.row + 1}`);
      this.column = place.column;
    }
    this.insideCell = true;
    this.cell = attributes;
    this.formula = undefined;
    this.formulaText = "";
    this.valueText = undefined;
  }

  private openInCell(name: string, attributes: Attributes, part: XmlPart): void {
    if (name === "v" || name === "f") {
      this.collecting = name;
      if (name === "f") this.formula = attributes;
      else this.valueText = "";
      part.wantText();
    } else if (name === "is") this.insideInline = true;
  }

  private endCell(): void {
    this.insideCell = false;
    const value = this.readCellValue();
    const formula = this.formula ? this.readCellFormula(this.formula) : undefined;
    if (value === null && !formula) return;
    const key = buildCellKey(this.row, this.column);
    if (this.cells.has(key))
      throw this.describeProblem(`the cell ${formatCellAddress(this.row, this.column)} is there twice`);
    if (++this.context.cellCount > this.context.mostCells) {
      throw new WorkbookProblem("too large", `the workbook has more than ${this.context.mostCells} filled cells`);
    }
    const format = this.formatOfCell();
    const { row, column } = this;
    this.cells.set(key, formula ? { row, column, value, formula, format } : { row, column, value, format });
  }

  private formatOfCell(): string {
    const style = this.cell["s"] ?? "0";
    const format = this.context.formats[Number(style)];
    if (format !== undefined) return format;
    // Without a style part, every cell has the only style.
    if (style !== "0") this.unstyled = this.noteCell(this.unstyled, sentence` (style ${style})`);
    return "General";
  }

  private noteCell(noted: Noted | undefined, more = ""): Noted {
    return noted ? { ...noted, count: noted.count + 1 } : { count: 1, first: this.formatOwnAddress() + more };
  }

  private formatOwnAddress(): string {
    return formatCellAddress(this.row, this.column);
  }

  private readCellValue(): CellValue {
    const type = this.cell["t"] ?? "n";
    if (type === "inlineStr") return this.inlineString.take();
    const kind = type === "e" ? this.context.richErrors.get(Number(this.cell["vm"])) : undefined;
    return kind ? new ErrorValue(kind) : parseCellValue(type, this.valueText, this.valueContext);
  }

  private readCellFormula(attributes: Attributes): Formula | undefined {
    const { row, column } = this;
    const dynamic = this.context.dynamicMarks.has(Number(this.cell["cm"]));
    return this.formulas.read({ row, column, attributes, text: this.formulaText, dynamic });
  }

  private describeProblem(what: string): WorkbookProblem {
    return new WorkbookProblem("damaged", `${shorten(this.partName)}: ${what}`);
  }
}

/** A sheet part's contents besides cells: hidden columns, merged cells, a filter. */
export class SheetFrame {
  readonly hiddenColumns = new Set<number>();
  readonly mergedAreas: Area[] = [];
  /** "Transition formula evaluation" (18.3.1.82): text counts as 0, comparisons give 0 and 1, and more. */
  transitionRules = false;
  isFilterAtWork = false;
  /** Custom views come after the sheet's own filter and have their own filters, which are inactive. */
  private inCustomViews = false;
  private columnsRead = 0;

  open(name: string, attributes: Record<string, string>): void {
    switch (name) {
      case "sheetPr":
        this.isFilterAtWork ||= parseBoolean(attributes["filterMode"]);
        this.transitionRules = parseBoolean(attributes["transitionEvaluation"]);
        break;
      case "col":
        this.readColumns(attributes);
        break;
      case "mergeCell": {
        const area = parseArea(attributes["ref"] ?? "");
        if (area) this.mergedAreas.push(area);
        break;
      }
      case "filterColumn":
        if (!this.inCustomViews) this.isFilterAtWork = true;
        break;
      case "customSheetViews":
        this.inCustomViews = true;
        break;
    }
  }

  /** Column records follow each other without overlap (ECMA-376 part 1, 18.3.1.13); each column is visited once. */
  private readColumns({ min, max, hidden }: Record<string, string>): void {
    const first = Math.max(Number(min), this.columnsRead + 1);
    const last = Math.min(Number(max), limits.columns);
    if (!(first <= last)) return;
    this.columnsRead = last;
    if (!parseBoolean(hidden)) return;
    for (let column = first; column <= last; column++) this.hiddenColumns.add(column - 1);
  }
}
