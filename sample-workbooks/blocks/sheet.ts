import type { clientNames } from "../../src/workbook/index";
import { absolute, addressOf, type Box, boxOf, onSheet } from "./address";
import type {
  Cell,
  CellStyle,
  ConditionalRule,
  DataValidation,
  MergeRange,
  NamedRange,
  PageSetup,
  RichTextRun,
  SheetChart,
  TableDefinition,
  WriteSheet,
} from "./hucre";
import { input, type Side } from "./style";

/** One sheet while it is laid out; addresses are written as a reader of the sheet sees them. */
export class Sheet {
  private readonly cells = new Map<string, Partial<Cell>>();
  private readonly heights = new Map<number, { height: number }>();
  private readonly merges: MergeRange[] = [];
  private readonly validations: DataValidation[] = [];
  private readonly rules: ConditionalRule[] = [];
  private readonly charts: SheetChart[] = [];
  private readonly tables: TableDefinition[] = [];
  private readonly keptRanges: string[] = [];
  private readonly foldedRanges: string[] = [];
  private frozenRows = 0;

  /** Widths in characters, first to last column. */
  constructor(
    readonly name: string,
    private readonly widths: readonly number[],
    private readonly tabColour: string,
    readonly print: Printing,
  ) {}

  /** A text or a number that belongs to the layout. */
  put(reference: string, value: string | number | null, style: CellStyle): this {
    const { top, left } = boxOf(reference);
    this.cells.set(`${top},${left}`, { value, style });
    return this;
  }

  /** A text that may hold subscripts and superscripts, see runsOf. */
  rich(reference: string, marked: string, style: CellStyle): this {
    if (!/[_^]\{/.test(marked)) return this.put(reference, marked || null, style);
    const { top, left } = boxOf(reference);
    this.cells.set(`${top},${left}`, { richText: runsOf(marked, style), style });
    return this;
  }

  /** The same style for every cell of a range that holds nothing yet: rules and fills that run across. */
  paint(reference: string, style: CellStyle): this {
    const { top, left, bottom, right } = boxOf(reference);
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++)
        if (!this.cells.has(`${row},${column}`)) this.cells.set(`${row},${column}`, { value: null, style });
    return this;
  }

  /** A cell that the user types into; null leaves it blank. */
  type(reference: string, value: string | number | null, format?: string, align?: Side, wrap = false): this {
    return this.put(reference, value, input(format, align ?? (typeof value === "string" ? "left" : "right"), wrap));
  }

  /** What the cells of a range hold without a formula, with their rows and columns counted from 1. */
  typedIn(
    reference: string,
  ): { readonly row: number; readonly column: number; readonly value: string | number | null }[] {
    const { top, left, bottom, right } = boxOf(reference);
    return Array.from({ length: bottom - top + 1 }, (_, down) => top + down).flatMap((row) =>
      Array.from({ length: right - left + 1 }, (_, across) => left + across).map((column) => {
        const value = this.cells.get(`${row},${column}`)?.value;
        const isTyped = typeof value === "string" || typeof value === "number";
        return { row: row + 1, column: column + 1, value: isTyped ? value : null };
      }),
    );
  }

  /** A native formula, without its equals sign. */
  formula(reference: string, formula: string, style: CellStyle): this {
    // Excel shows an @ before INDEX in any other formula, as if only one of several values were meant.
    if (/\bINDEX\(/.test(formula)) return this.addIn(reference, formula, style);
    const { top, left } = boxOf(reference);
    this.cells.set(`${top},${left}`, { value: null, formula, style });
    return this;
  }

  /** A call of the add-in that fills the whole reference; the style may depend on the place inside it, counted from 0. */
  addIn(reference: string, formula: string, look: CellStyle | ((row: number, column: number) => CellStyle)): this {
    const { top, left, bottom, right } = boxOf(reference);
    const styleAt = typeof look === "function" ? look : () => look;
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++) {
        const style = styleAt(row - top, column - left);
        this.cells.set(`${row},${column}`, { value: null, style });
      }
    const formulaRef = reference.includes(":") ? reference : `${reference}:${reference}`;
    this.cells.set(`${top},${left}`, {
      value: null,
      formula,
      formulaType: "array",
      formulaRef: formulaRef.startsWith(`${addressOf(bottom, right)}:`) ? addressOf(top, left) : formulaRef,
      formulaDynamic: true,
      style: styleAt(0, 0),
    });
    return this;
  }

  /** Puts every formula that a range holds by now inside another one. */
  wrapFormulas(reference: string, wrap: (formula: string) => string): this {
    const { top, left, bottom, right } = boxOf(reference);
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++) {
        const cell = this.cells.get(`${row},${column}`);
        if (cell?.formula) cell.formula = wrap(cell.formula);
      }
    return this;
  }

  /** Cells to type into that a blank form keeps as they are: they belong to the form, not to a job. */
  keep(...ranges: readonly string[]): this {
    this.keptRanges.push(...ranges);
    return this;
  }

  /** What a blank form keeps of this sheet, with the sheet's name. */
  get kept(): readonly string[] {
    return this.keptRanges.map((range) => onSheet(this.name, range));
  }

  /** Rows that a copy for the client hides where these cells hold nothing. */
  fold(...ranges: readonly string[]): this {
    this.foldedRanges.push(...ranges);
    return this;
  }

  /** What a copy for the client hides of this sheet, by the names that say so. */
  get clientRanges(): Readonly<Record<keyof typeof clientNames, readonly string[]>> {
    const { workingPaper, ifFilled } = this.print;
    const here = (ranges: readonly string[]) => ranges.map((range) => onSheet(this.name, range));
    return {
      workingPapers: here(workingPaper ? ["A1"] : []),
      sheets: here(ifFilled === undefined ? [] : [ifFilled]),
      rows: here(this.foldedRanges),
    };
  }

  merge(reference: string): this {
    const { top, left, bottom, right } = boxOf(reference);
    const style = this.cells.get(`${top},${left}`)?.style;
    if (style) this.paint(reference, style);
    this.merges.push({ startRow: top, startCol: left, endRow: bottom, endCol: right });
    return this;
  }

  /** Row height in points, rows counted from 1. */
  height(points: number, ...rows: readonly number[]): this {
    for (const row of rows) this.heights.set(row - 1, { height: points });
    return this;
  }

  heightOf(points: number, first: number, last: number): this {
    for (let row = first; row <= last; row++) this.height(points, row);
    return this;
  }

  validate(...validations: readonly DataValidation[]): this {
    this.validations.push(...validations);
    return this;
  }

  /** A conditional look. */
  when(range: string, formula: string, style: CellStyle): this {
    this.rules.push({ type: "expression", priority: this.rules.length + 1, range, formula, style });
    return this;
  }

  /** More digits where the shown ones could not tell a result from its limit: 0.6004 must not stand as 0.600 beside "fail". */
  moreDigitsNear(result: string, limit: string): this {
    const alike = `AND(ISNUMBER(${result}),ISNUMBER(${limit}),${result}<>${limit},ROUND(${result},3)=ROUND(${limit},3))`;
    return this.when(result, alike, { numFmt: "0.000000" }).when(limit, alike, { numFmt: "0.000000" });
  }

  chart(chart: SheetChart): this {
    this.charts.push(chart);
    return this;
  }

  /** A real table with filters over cells that are laid out already; its head row holds the columns' names as texts. */
  table(name: string, range: string, columns: readonly string[]): this {
    const named = columns.map((column) => ({ name: column }));
    this.tables.push({ name, range, columns: named, style: "TableStyleLight1", showRowStripes: false });
    return this;
  }

  freeze(rows: number): this {
    this.frozenRows = rows;
    return this;
  }

  /** Excel sorts a table on a protected sheet only where every cell of it is unlocked; a formula is not. */
  private canSort(): boolean {
    const holdsFormula = ({ top, left, bottom, right }: Box): boolean =>
      [...this.cells].some(([key, { formula }]) => {
        const [row = 0, column = 0] = key.split(",").map(Number);
        return formula !== undefined && top <= row && row <= bottom && left <= column && column <= right;
      });
    return this.tables.length > 0 && !this.tables.some(({ range = "" }) => holdsFormula(boxOf(range)));
  }

  /** How far the sheet is shrunk so that every print area fits its page, in the whole percents that Excel takes, and the letters that it needs then. */
  private fitTo(paper: Paper): { readonly scale: number; readonly least: number } {
    const { areas, orientation, pages, titleRows } = this.print;
    const room = roomOn(paper, orientation);
    const percent = (scales: readonly number[]) => Math.floor(100 * Math.min(1, ...scales)) / 100;
    const lettersAt = (scale: number) => Math.ceil((2 * leastOnPaper) / scale) / 2;
    const across = percent(areas.map((area) => room.across / this.widthOf(area)));
    if (pages === undefined) return { scale: across, least: lettersAt(across) };
    const [, lastTitle = 0] = titleRows?.split(":").map(Number) ?? [];
    const heights = this.heightsWith(lettersAt(across));
    const down = areas.map((area) => {
      const { top, bottom } = boxOf(area);
      const rows = Array.from({ length: bottom - top + 1 }, (_, index) => top + index);
      const repeated = top < lastTitle ? [] : Array.from({ length: lastTitle }, (_, index) => index);
      return room.down / [...repeated, ...rows].map((row) => heights.get(row)?.height ?? defaultHeight).reduce(sum, 0);
    });
    const scale = percent([across, ...down]);
    // LibreOffice takes the number of pages as that of each area, so several areas must fit by themselves.
    if (areas.length > 1 && scale < across)
      throw new Error(`${this.name}: an area needs ${String(scale)} in height, ${String(across)} in width`);
    return { scale, least: lettersAt(scale) };
  }

  private widthOf(reference: string): number {
    const { left, right } = boxOf(reference);
    return this.widths.slice(left, right + 1).reduce(sum, 0) * pointsOfWidth;
  }

  /** The rows' heights, with room for texts of the layout that take more lines in letters of at least this size. */
  private heightsWith(least: number): Map<number, { height: number }> {
    const heights = new Map(this.heights);
    for (const [place, { value: plainText, richText, style: look }] of this.cells) {
      const value = richText ? richText.map(({ text }) => text).join("") : plainText;
      if (typeof value !== "string" || !look?.alignment?.wrapText) continue;
      const [row = 0, column = 0] = place.split(",").map(Number);
      const merged = this.merges.find(({ startRow, startCol }) => startRow === row && startCol === column);
      const lastRow = merged?.endRow ?? row;
      const width = this.widths.slice(column, (merged?.endCol ?? column) + 1).reduce(sum, 0);
      const size = Math.max(least, look.font?.size ?? 0);
      const rows = Array.from(
        { length: lastRow - row + 1 },
        (_, index) => heights.get(row + index)?.height ?? defaultHeight,
      );
      const needed = value.length < sentenceLength ? headHeight(value, width, size) : heightFor(value, width, size) - 6;
      const missing = needed - rows.reduce(sum, 0);
      if (missing > 0) heights.set(lastRow, { height: (rows.at(-1) ?? 0) + missing });
    }
    return heights;
  }

  toLibrary(paper: Paper): WriteSheet {
    const { scale, least } = this.fitTo(paper);
    const { pageSetup, headerFooter } = printing(this.print, paper, scale);
    const readable = <T>(described: T): T => enlarge(described, least);
    return {
      name: this.name,
      columns: this.widths.map((width) => ({ width })),
      cells: new Map([...this.cells].map(([place, cell]) => [place, readable(cell)])),
      rowDefs: this.heightsWith(least),
      merges: this.merges,
      dataValidations: this.validations,
      conditionalRules: this.rules,
      ...(this.charts.length > 0 && { charts: readable(this.charts) }),
      ...(this.tables.length > 0 && { tables: this.tables }),
      ...(this.frozenRows > 0 && { freezePane: { rows: this.frozenRows } }),
      protection: {
        ...typeOnly,
        ...(this.tables.length > 0 && { autoFilter: true }),
        ...(this.canSort() && { sort: true }),
      },
      pageSetup,
      headerFooter,
      view: { showGridLines: false, tabColor: { rgb: this.tabColour } },
    };
  }
}

/** Keys under which the library takes the size of letters, in cells and in charts. */
const letterSize = /^(size|\w*fontSize)$/i;

/** The same description of cells or charts with no letter below a size; markers of charts keep theirs. */
function enlarge<T>(described: T, least: number): T {
  if (Array.isArray(described)) return described.map((one) => enlarge<unknown>(one, least)) as T;
  if (typeof described !== "object" || described === null) return described;
  return Object.fromEntries(
    Object.entries(described).map(([key, value]) => {
      if (key === "marker") return [key, value];
      if (typeof value === "number" && letterSize.test(key)) return [key, Math.max(value, least)];
      return [key, enlarge<unknown>(value, least)];
    }),
  ) as T;
}

/** A finished sheet and the names by which other sheets call its values. */
export interface Page {
  readonly sheet: Sheet;
  readonly names: Readonly<Record<string, string>>;
}

/** Row height in points that a wrapped text needs; the width is that of its columns, in characters. Cautious: rather a little air than a cut-off line. */
export function heightFor(text: string, width: number, size = 9): number {
  const perLine = Math.max(8, (width * 7 * 0.75) / (size * 0.47));
  const lines = text.split("\n").reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / perLine)), 0);
  return Math.round(lines * size * 1.25 + 6);
}

/** Row height in points that the few words of a column's head need, broken between words; 0 for one line. */
function headHeight(text: string, width: number, size: number): number {
  const room = (width * pointsOfWidth - 3) / size;
  let [lines, filled] = [1, 0];
  for (const word of text.split(" ")) {
    const isNext = filled > 0 && filled + emsOf(` ${word}`) > room;
    if (isNext) lines++;
    filled = isNext || filled === 0 ? emsOf(word) : filled + emsOf(` ${word}`);
  }
  return lines === 1 ? 0 : lines * size * 1.2 + 1;
}

/** The width of a text in the size of its letters: those of Arial in four widths. */
function emsOf(text: string): number {
  return [...text].reduce((ems, letter) => {
    if (/[ fijlrt,.;:()|/’]/.test(letter)) return ems + 0.28;
    if (/[mwMW%]/.test(letter)) return ems + 0.85;
    return ems + (/[A-Z]/.test(letter) ? 0.68 : 0.55);
  }, 0);
}

/** A space at the edge of a run would need an attribute that the schema does not know; a no-break space needs none. */
const edges = (text: string) => text.replace(/^ | $/g, "\u00A0");

/** "q_{E50} in m^{3}" as runs: _{…} is set below the line, ^{…} above it. */
function runsOf(marked: string, style: CellStyle): RichTextRun[] {
  const runs: RichTextRun[] = [];
  const font = style.font ?? {};
  for (const [, below, above, plain] of marked.matchAll(/_\{([^}]*)\}|\^\{([^}]*)\}|([^_^]+|[_^])/g)) {
    if (below !== undefined) runs.push({ text: below, font: { ...font, vertAlign: "subscript" } });
    else if (above !== undefined) runs.push({ text: above, font: { ...font, vertAlign: "superscript" } });
    else runs.push({ text: edges(plain ?? ""), font: { ...font } });
  }
  return runs;
}

/**
 * Unlocked cells can be typed into, everything else is protected without a password: a guard against slips, not a lock. Column
 * widths, row heights and cell formats stay free.
 */
const typeOnly: NonNullable<WriteSheet["protection"]> = {
  sheet: true,
  formatCells: true,
  formatColumns: true,
  formatRows: true,
};

interface Printing {
  readonly orientation: "portrait" | "landscape";
  /** Each area starts on a page of its own. */
  readonly areas: readonly string[];
  /** Rows repeated on every page, "1:3". */
  readonly titleRows?: string;
  /** A column repeated on the pages to the right of it, "B". */
  readonly titleColumn?: string;
  /** Each area is one page, if need be shrunk to its height; without it an area takes as many pages as its length needs. */
  readonly pages?: number;
  readonly footer: string;
  /** The firm's own: a copy for the client hides it. */
  readonly workingPaper?: true;
  /** Cells without which a copy for the client hides the sheet: the readings of a run that may not have been made. */
  readonly ifFilled?: string;
}

/** What the printers of a form's readers hold. */
export type Paper = "a4" | "letter";

/** Inches. */
const margins = { left: 0.45, right: 0.45, top: 0.5, bottom: 0.6, header: 0.3, footer: 0.3 };

/** Inches, upright. */
const papers: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  a4: { width: 8.27, height: 11.69 },
  letter: { width: 8.5, height: 11 },
};

const defaultHeight = 12.75;

const sum = (one: number, other: number) => one + other;

/** What a page holds between its margins, in points. */
function roomOn(
  paper: Paper,
  orientation: Printing["orientation"],
): { readonly across: number; readonly down: number } {
  const { width, height } = papers[paper];
  const [across, down] = orientation === "portrait" ? [width, height] : [height, width];
  return {
    across: (across - margins.left - margins.right) * 72,
    down: (down - margins.top - margins.bottom) * 72,
  };
}

/** Points. What is smaller on paper is read by nobody. */
const leastOnPaper = 8;

/** Characters from which a text is a sentence, and no longer the few words of a column's head. */
const sentenceLength = 30;

/** A column of width 1 in points: a digit of the default font. Excel rounds it down to seven pixels, LibreOffice does not. */
const pointsOfWidth = 5.6;

/** An ampersand starts a code in headers and footers, so a real one is doubled. */
const plain = (text: string) => text.replaceAll("&", "&&");

function printing(
  print: Printing,
  paper: Paper,
  scale: number,
): {
  pageSetup: PageSetup;
  headerFooter: NonNullable<WriteSheet["headerFooter"]>;
} {
  // Headers and footers shrink with the sheet.
  const small = `&"Arial,Regular"&${Math.ceil(leastOnPaper / scale)}&K5C6A6F`;
  return {
    pageSetup: {
      paperSize: paper,
      orientation: print.orientation,
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: print.pages ?? 0,
      margins,
      horizontalCentered: true,
    },
    headerFooter: { oddFooter: `&L${small}${plain(print.footer)}&C${small}&A&R${small}Page &P of &N` },
  };
}

/** Print areas and titles as the names under which Excel keeps them, with absolute addresses. */
export function printNames(sheet: string, print: Printing): NamedRange[] {
  const names: NamedRange[] = [
    {
      name: "_xlnm.Print_Area",
      scope: sheet,
      range: print.areas.map((area) => onSheet(sheet, area)).join(","),
    },
  ];
  if (print.titleRows) {
    const whole = (reference: string) => onSheet(sheet, "A1").replace(absolute("A1"), () => reference);
    const rows = whole(print.titleRows.replace(/(\d+)/g, "$$$1"));
    const { titleColumn } = print;
    const columns = titleColumn === undefined ? "" : `${whole(`$${titleColumn}:$${titleColumn}`)},`;
    names.push({ name: "_xlnm.Print_Titles", scope: sheet, range: `${columns}${rows}` });
  }
  return names;
}
