import { type Area, type Book, buildCellKey, type CellValue } from "../model";
import { isInside, type Place, type SheetArea } from "./area";

/** What the sheet says about a cell; any part may be empty. */
export interface Label {
  /** The words beside and above it. */
  readonly text: string;
  /** A short symbol between the words and the cell: n50, C_L. */
  readonly symbol: string;
  readonly unit: string;
}

/** The words to the left of a cell, typed or else computed. */
interface Beside {
  readonly text: string;
  readonly symbol: string;
  readonly isComputed?: boolean;
}

const furthestLeft = 16;
const furthestRight = 8;
/** How far a table's row may start from a cell. */
const furthestStart = 40;
/** How far the words of a cell may be from it where its own block of the sheet has none. */
const furthestBefore = 12;
const furthestUp = 60;
/** A column that is empty within this many rows separates two blocks of a sheet. */
const nearRows = 15;
/** Headings that add nothing to typed words beside the cell. */
const sayNothing = new Set(["value", "values", "unit", "result", "figure"]);

/**
 * Finds the label of a cell. Beside it: the nearest typed text to its left, skipping figures and results, if it starts the row;
 * a short sign next to that text is the symbol; in a table whose rows have no such text, the entry or the number that the row starts with. Above it: the column's name in its table, or the lowest lines of typed text above the
 * figures. Unit: the text to the right if it is a unit, else the heading's, else the label's.
 */
export class Labels {
  private readonly texts: SheetTexts;
  private readonly headings: Headings;

  private readonly look: Look;

  /** Where it is known which cells are for typing into, these are entries of a form: they head nothing, and name only the rest of a row without other words. */
  constructor(
    private readonly book: Book,
    read: (sheet: number, row: number, column: number) => { readonly value: CellValue; readonly typed: boolean },
    isInput: (sheet: number, row: number, column: number) => boolean = () => false,
  ) {
    this.look = rememberLook((sheet, row, column) => {
      const { value, typed } = read(sheet, row, column);
      const isResult = value !== null && !typed;
      return { value, kind: isResult ? "result" : isInput(sheet, row, column) ? "entry" : "label" };
    });
    this.texts = new SheetTexts(book, this.look);
    this.headings = new Headings(book, this.look, this.texts);
  }

  describeAt(sheet: number, row: number, column: number): Label {
    const { value: own, kind } = this.look(sheet, row, column);
    const isNumber = typeof own === "number";
    const beside = this.readBeside(sheet, row, column);
    const above = this.headings.readAbove(sheet, row, column, typeof own === "string");
    const besideParts = splitUnit(beside.text);
    const isSaid = besideParts.words !== "" && !beside.isComputed && sayNothing.has(above.text.toLowerCase());
    const words = [besideParts.words, isSaid ? "" : above.text];
    if (words[0] === "" || beside.isComputed) {
      const start = this.readRowStart(sheet, row, column);
      if (typeof start === "string") words[0] = start;
      else if (start !== undefined && words[0] === "" && above.text !== "") words.push(`no. ${start}`);
    }
    // A form has words for all that is typed into it, be they further away.
    if (words.join("") === "" && kind === "entry")
      words.push(splitUnit(this.readWordsBefore({ sheet, row, column })).words);
    // A total below a column may have a different unit; then its own row says so.
    const unit = isNumber
      ? this.readUnitRight(sheet, row, column) || findUnitWithin(beside.text) || above.unit || besideParts.unit
      : "";
    return { text: words.filter((part) => part !== "").join(", "), symbol: beside.symbol, unit };
  }

  /** What a range is about: its column's heading, or its row's label. */
  describeArea({ sheet, top, left, bottom, right }: SheetArea): Label {
    if (top === bottom && left === right) return this.describeAt(sheet, top, left);
    const isText = typeof this.look(sheet, top, left).value === "string";
    const above = this.headings.readAbove(sheet, top, left, isText);
    const beside = this.readBeside(sheet, top, left);
    const unit = isText ? "" : above.unit || this.readUnitRight(sheet, top, right);
    if (left === right) return { text: above.text || beside.text, symbol: "", unit };
    if (top === bottom)
      return { text: beside.text || above.text, symbol: "", unit: splitUnit(beside.text).unit || unit };
    const last = this.headings.readAbove(sheet, top, right, isText).text;
    const text =
      above.text === "" || last === "" ? above.text || last : above.text === last ? last : `${above.text} … ${last}`;
    return { text, symbol: "", unit: "" };
  }

  /**
   * Every word that may name a cell in its row, for a check that looks for certain words: the label and its symbol, otherwise the nearest
   * text to its left, even beyond an empty column or a figure.
   */
  readWordsBefore({ sheet, row, column }: Place): string {
    const { text, symbol } = this.readBeside(sheet, row, column);
    const words = [text, symbol].filter((part) => part.length > 1).join(", ");
    if (words !== "") return words;
    for (let left = column - 1; left >= Math.max(0, column - furthestBefore); left -= 1) {
      const found = this.texts.readWords(sheet, row, left);
      if (found !== "") return found;
    }
    return "";
  }

  /** The same for the column: its heading with the unit, otherwise the nearest text above, even beyond a gap. */
  readWordsAbove({ sheet, row, column }: Place): string {
    const isText = typeof this.look(sheet, row, column).value === "string";
    const { text, unit } = this.headings.readAbove(sheet, row, column, isText);
    if (text.length > 1) return unit === "" ? text : `${text}, ${unit}`;
    for (let up = row - 1; up >= Math.max(0, row - furthestUp); up -= 1) {
      const found = this.texts.readWords(sheet, up, column);
      if (found !== "") return found;
    }
    return "";
  }

  private isEmptyColumn(sheet: number, row: number, column: number): boolean {
    const cells = this.book.sheets[sheet]?.cells;
    for (let near = Math.max(0, row - nearRows); near <= row + nearRows; near += 1) {
      if ((cells?.get(buildCellKey(near, column))?.value ?? null) !== null) return false;
    }
    return true;
  }

  private readBeside(sheet: number, row: number, column: number): Beside {
    const nothing = { text: "", symbol: "" };
    let fromResult = "";
    let at = column - 1;
    const run: string[] = [];
    for (; at >= Math.max(0, column - furthestLeft); at -= 1) {
      const merged = this.texts.findMerged(sheet, row, at);
      if (merged) at = merged.left;
      const source = merged ? merged.top : row;
      const text = this.texts.readTyped(sheet, source, at);
      const { value, kind } = this.look(sheet, source, at);
      if (text !== undefined) {
        run.push(text);
        continue;
      }
      if (run.length > 0) break;
      if (value === null && this.isEmptyColumn(sheet, row, at)) break;
      // What follows an entry is computed from it: the unit of a component, the limit of a programme.
      if (kind === "entry") fromResult = "";
      else if (typeof value === "string" && value.trim().length > 1) fromResult ||= value.trim();
    }
    const symbol = run.find(isSymbol) ?? "";
    const named = run.find(isName);
    if (named !== undefined) return { text: named, symbol: symbol === named ? "" : symbol };
    if (run.length === 0) return fromResult === "" ? nothing : { text: fromResult, symbol: "", isComputed: true };
    // A text preceded by a figure is an entry in a table's row, not the row's name.
    const before = at >= 0 ? this.look(sheet, row, at).value : null;
    const text = run.at(-1) ?? "";
    if (typeof before === "number") return nothing;
    return { text, symbol: text === symbol ? "" : symbol };
  }

  /** What a table's row starts with, if that tells it from the others: a counter, or an entry such as the name of a room. */
  private readRowStart(sheet: number, row: number, column: number): number | string | undefined {
    let first: number | string | undefined;
    for (let at = column - 1; at >= Math.max(0, column - furthestStart); at -= 1) {
      const { value, kind } = this.look(sheet, row, at);
      if (value === null && this.isEmptyColumn(sheet, row, at)) return first;
      const isCounter = typeof value === "number" && Number.isInteger(value) && value > 0 && value < 10_000;
      if (isCounter) first = value;
      else if (kind === "entry" && typeof value === "string" && value.trim() !== "") first = value.trim();
      else if (value !== null) first = undefined;
    }
    return column > furthestStart ? undefined : first;
  }

  private readUnitRight(sheet: number, row: number, column: number): string {
    let blanks = 0;
    for (let at = column + 1; at <= column + furthestRight && blanks <= 2; at += 1) {
      const { value } = this.look(sheet, row, at);
      if (typeof value === "string" && value !== "") return isUnit(value) ? value.trim() : "";
      if (value === null) blanks += 1;
    }
    return "";
  }
}

/** A short symbol, not a word: n50, C_L, ρi, N. */
const isSymbol = (text: string): boolean =>
  text.length <= 9 && !/\s|^\p{Ll}{4,}$/u.test(text) && !isUnit(text) && /\p{L}/u.test(text);

/** Starts like a name or is too long for a symbol. */
const isName = (text: string): boolean => text.length > 16 || /^\p{Lu}\p{Ll}{2}/u.test(text);

const longestRun = 600;
const longestHeadingLine = 14;

interface Heading {
  readonly text: string;
  readonly unit: string;
}

/** Finds the heading above a cell: the column's name in its table, or the lowest lines of typed text above the figures. */
class Headings {
  private readonly headingRows = new Map<number, number | undefined>();

  constructor(
    private readonly book: Book,
    private readonly look: Look,
    private readonly texts: SheetTexts,
  ) {}

  readAbove(sheet: number, row: number, column: number, isText: boolean): Heading {
    const table = this.book.tables.find((one) => one.sheet === sheet && isInside(one.area, row, column));
    if (table) {
      const { words, unit } = splitUnit(table.columns[column - table.area.left] ?? "");
      return row < table.area.top + table.headerRows ? { text: "", unit: "" } : { text: words, unit };
    }
    const lowest = this.findHeadingRow(sheet, row, column);
    if (lowest === undefined) return { text: "", unit: "" };
    const run: { readonly text: string; readonly row: number }[] = [];
    for (let at = lowest; at >= 0 && run.length < longestRun; at -= 1) {
      const text = this.texts.readTyped(sheet, at, column);
      if (text === undefined) break;
      run.push({ text, row: at });
    }
    if (!isText) return composeHeading(run.map(({ text }) => text));
    // Stacked typed texts: the heading is the topmost one with other headings beside it; a title has none.
    const heading = run.findLast((line) => this.hasNeighbour(sheet, line.row, column)) ?? run.at(-1);
    return composeHeading(heading ? [heading.text] : []);
  }

  /** The row of the lowest typed text above a cell, skipping figures, results and gaps within a table; undefined if there is none. */
  private findHeadingRow(sheet: number, row: number, column: number): number | undefined {
    const passed: number[] = [];
    let found: number | undefined;
    for (let at = row - 1; at >= 0; at -= 1) {
      const key = sheet * 2 ** 34 + buildCellKey(at, column);
      if (this.texts.readTyped(sheet, at, column) !== undefined) {
        found = at;
        break;
      }
      if (this.headingRows.has(key)) {
        found = this.headingRows.get(key);
        break;
      }
      const { value, kind } = this.look(sheet, at, column);
      if (value === null && kind !== "entry" && !this.goesOn(sheet, at, column)) break;
      passed.push(key);
    }
    // Every cell passed on the way up shares the heading.
    for (const key of passed) this.headingRows.set(key, found);
    return found;
  }

  private hasNeighbour(sheet: number, row: number, column: number): boolean {
    const left = this.texts.findMerged(sheet, row, column - 1)?.left ?? column - 1;
    const right = (this.texts.findMerged(sheet, row, column)?.right ?? column) + 1;
    return (
      this.texts.readTyped(sheet, row, right) !== undefined ||
      (left >= 0 && this.texts.readTyped(sheet, row, left) !== undefined)
    );
  }

  /** A blank cell within a table: figures or results are beside it. */
  private goesOn(sheet: number, row: number, column: number): boolean {
    for (const near of [column - 1, column + 1, column - 2, column + 2]) {
      if (near < 0) continue;
      const { value, kind } = this.look(sheet, row, near);
      if (typeof value === "number" || (kind !== "label" && value !== null)) return true;
    }
    return false;
  }
}

/** The lowest lines of a heading, from the bottom up: a unit may be below the words, which may take several short lines. */
function composeHeading(run: readonly string[]): Heading {
  const [lowest = "", ...rest] = run;
  const ownUnit = isUnit(lowest) && (rest.length > 0 || lowest.length > 1);
  const lines = ownUnit ? rest : run;
  const [first = "", ...more] = lines;
  const kept = [first];
  for (const line of more) {
    if (line.length > longestHeadingLine || kept.length === 3 || first.length > longestHeadingLine) break;
    kept.unshift(line);
  }
  const { words, unit } = splitUnit(kept.join(" "));
  return { text: words, unit: ownUnit ? lowest : unit };
}

/** What the labels need to know about a cell: its value, and whether it is for typing into, holds a result, or otherwise may name others. */
type Look = (
  sheet: number,
  row: number,
  column: number,
) => { readonly value: CellValue; readonly kind: "label" | "entry" | "result" };

/** The labels of neighbours look at the same cells. */
function rememberLook(look: Look): Look {
  const seen: Map<number, ReturnType<Look>>[] = [];
  return (sheet, row, column) => {
    const cells = (seen[sheet] ??= new Map<number, ReturnType<Look>>());
    const key = buildCellKey(row, column);
    let cell = cells.get(key);
    if (!cell) cells.set(key, (cell = look(sheet, row, column)));
    return cell;
  };
}

/** The texts of a book's sheets used for labels. */
class SheetTexts {
  constructor(
    private readonly book: Book,
    private readonly look: Look,
  ) {}

  /** The merged cells that contain a cell. */
  findMerged(sheet: number, row: number, column: number): Area | undefined {
    return this.book.sheets[sheet]?.mergedAreas.find((area) => isInside(area, row, column));
  }

  /** A typed text with at least one letter or symbol, undefined for anything else. */
  readTyped(sheet: number, row: number, column: number): string | undefined {
    const { value, kind } = this.look(sheet, row, column);
    return kind === "label" && typeof value === "string" && value.trim() !== ""
      ? value.trim().replace(/\s+/g, " ")
      : undefined;
  }

  /** A text, typed or computed as labels often are; "" for a single letter, which is a choice or a mark. */
  readWords(sheet: number, row: number, column: number): string {
    const { value, kind } = this.look(sheet, row, column);
    const text = typeof value === "string" && kind !== "entry" ? value.trim() : "";
    return text.length > 1 && /\p{L}/u.test(text) ? text : "";
  }
}

/** Basic units; quotients and products are made of them. */
const plain = new Set(
  (
    "Pa kPa hPa mbar inHg inH2O mm cm m km in ft yd s min h d a K °C °F °R kg g lb l L ml cfm cfm50 fpm mph W kW Wh kWh kBtu Btu J kJ MJ " +
    "% ‰ ppm m² m³ cm² mm² ft² ft³ in² in.² fraction persons person h·K m·K"
  ).split(" "),
);

/** True for a text that is just a unit: Pa, m³/(h·m²), 1/h, lb/ft³, °C. */
function isUnit(text: string): boolean {
  const bare = text.trim();
  if (bare.length === 0 || bare.length > 24 || /^\d+$/.test(bare)) return false;
  if (plain.has(bare)) return true;
  const factors = bare.split(/[/·*()]+/).map((factor) => factor.trim());
  const named = factors.filter((factor) => factor !== "" && factor !== "1");
  return named.length > 0 && /[/·]/.test(bare) && named.every(isFactor);
}

function isFactor(text: string): boolean {
  const bare = text.replace(/(\^[-−]?[\dn.]+|[²³⁻¹ⁿ]+|(?<=[a-z])[23n]|(?<=\S) at \d+ Pa)$/u, "");
  return plain.has(text) || plain.has(bare) || bare === "100 ft²";
}

/** A heading or label split into its words and the unit at its end: "Wind speed, m/s", "Temperature (°C)". */
function splitUnit(text: string): { readonly words: string; readonly unit: string } {
  // A bracket after a stroke or a dot is part of a quotient: "q50 ≤ 0.6 m³/(h·m²)".
  const bracketed = /^(.*[^\s/·*])\s*[([]([^()[\]]+|[^([]*\([^()]*\)[^()]*)[)\]]$/u.exec(text);
  if (bracketed && isUnit(bracketed[2] ?? "")) return { words: bracketed[1] ?? "", unit: bracketed[2] ?? "" };
  const comma = text.lastIndexOf(", ");
  const tail = comma < 0 ? "" : text.slice(comma + 2);
  return isUnit(tail) ? { words: text.slice(0, comma), unit: tail } : { words: text, unit: "" };
}

/** The unit within a label, before a colon: "Inside, m²: by the add-in". */
function findUnitWithin(text: string): string {
  const amid = /, ([^,:]+):/u.exec(text)?.[1] ?? "";
  return isUnit(amid) ? amid : "";
}
