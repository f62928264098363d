import { cellKey, type Book } from "../model";
import type { SheetArea } from "../formula/values/value";
import { Headings } from "./headings";
import { SheetTexts, type Look } from "./sheet-texts";
import { isUnit, splitUnit, unitWithin } from "./unit-text";

/** What the sheet itself says about a cell; every part may be empty. */
export interface Label {
  /** The words beside and above it. */
  readonly text: string;
  /** A short sign between the words and the cell: n50, C_L. */
  readonly symbol: string;
  readonly unit: string;
}

const furthestLeft = 16;
const furthestRight = 8;
/** A column that holds nothing within so many rows parts two blocks of a sheet. */
const nearRows = 15;
/** Headings that add nothing to what stands beside the cell. */
const sayNothing = new Set(["value", "values", "unit", "result", "figure"]);

/**
 * Finds the words that belong to a cell. Beside it: the nearest typed text to its left, over figures and results, where it begins the row;
 * a short sign next to that text is the symbol. Above it: the column's name in its table, or the lowest lines of typed text above the
 * figures. Unit: the text to the right that is a unit, else the heading's, else the label's.
 */
export class Labels {
  private readonly texts: SheetTexts;
  private readonly headings: Headings;

  constructor(
    private readonly book: Book,
    private readonly look: Look,
  ) {
    this.texts = new SheetTexts(book, look);
    this.headings = new Headings(book, look, this.texts);
  }

  of(sheet: number, row: number, column: number): Label {
    const own = this.look(sheet, row, column).value;
    const isNumber = typeof own === "number";
    const beside = this.beside(sheet, row, column);
    const above = this.headings.above(sheet, row, column, typeof own === "string");
    const besideParts = splitUnit(beside.text);
    const words = [besideParts.words, sayNothing.has(above.text.toLowerCase()) ? "" : above.text];
    if (words[0] === "" && above.text !== "") words.push(this.lineNumber(sheet, row, column));
    // A total below a column may have another unit than the column; then its own row says so.
    const unit = isNumber
      ? this.unitRight(sheet, row, column) || unitWithin(beside.text) || above.unit || besideParts.unit
      : "";
    return { text: words.filter((part) => part !== "").join(", "), symbol: beside.symbol, unit };
  }

  /** What a range is about: its column's heading, or what stands before its row. */
  ofArea({ sheet, top, left, bottom, right }: SheetArea): Label {
    if (top === bottom && left === right) return this.of(sheet, top, left);
    const isText = typeof this.look(sheet, top, left).value === "string";
    const above = this.headings.above(sheet, top, left, isText);
    const beside = this.beside(sheet, top, left);
    const unit = isText ? "" : above.unit || this.unitRight(sheet, top, right);
    if (left === right) return { text: above.text || beside.text, symbol: "", unit };
    if (top === bottom)
      return { text: beside.text || above.text, symbol: "", unit: splitUnit(beside.text).unit || unit };
    const last = this.headings.above(sheet, top, right, isText).text;
    const text =
      above.text === "" || last === "" ? above.text || last : above.text === last ? last : `${above.text} … ${last}`;
    return { text, symbol: "", unit: "" };
  }

  private isEmptyColumn(sheet: number, row: number, column: number): boolean {
    const cells = this.book.sheets[sheet]?.cells;
    for (let near = Math.max(0, row - nearRows); near <= row + nearRows; near += 1) {
      if ((cells?.get(cellKey(near, column))?.value ?? null) !== null) return false;
    }
    return true;
  }

  private beside(sheet: number, row: number, column: number): { readonly text: string; readonly symbol: string } {
    const nothing = { text: "", symbol: "" };
    let fromResult = "";
    let at = column - 1;
    const run: string[] = [];
    for (; at >= Math.max(0, column - furthestLeft); at -= 1) {
      const merged = this.texts.merged(sheet, row, at);
      if (merged) at = merged.left;
      const source = merged ? merged.top : row;
      const text = this.texts.typed(sheet, source, at);
      const { value } = this.look(sheet, source, at);
      if (text !== undefined) {
        run.push(text);
        continue;
      }
      if (run.length > 0) break;
      if (value === null && this.isEmptyColumn(sheet, row, at)) break;
      if (typeof value === "string" && value.trim().length > 1) fromResult ||= value.trim();
    }
    const symbol = run.find(isSymbol) ?? "";
    const named = run.find(isName);
    if (named !== undefined) return { text: named, symbol: symbol === named ? "" : symbol };
    if (run.length === 0) return fromResult === "" ? nothing : { text: fromResult, symbol: "" };
    // A text that a figure stands before is an entry of a table's row, not the name of the row.
    const before = at >= 0 ? this.look(sheet, row, at).value : null;
    const text = run.at(-1) ?? "";
    if (typeof before === "number") return nothing;
    return { text, symbol: text === symbol ? "" : symbol };
  }

  /** "no. 3" where a row of a table begins with a count. */
  private lineNumber(sheet: number, row: number, column: number): string {
    let first = 0;
    for (let at = column - 1; at >= Math.max(0, column - furthestLeft); at -= 1) {
      const { value } = this.look(sheet, row, at);
      if (value === null && this.isEmptyColumn(sheet, row, at)) break;
      if (value !== null) first = typeof value === "number" ? value : 0;
    }
    return Number.isInteger(first) && first > 0 && first < 10_000 ? `no. ${first}` : "";
  }

  private unitRight(sheet: number, row: number, column: number): string {
    let blanks = 0;
    for (let at = column + 1; at <= column + furthestRight && blanks <= 2; at += 1) {
      const { value } = this.look(sheet, row, at);
      if (typeof value === "string" && value !== "") return isUnit(value) ? value.trim() : "";
      if (value === null) blanks += 1;
    }
    return "";
  }
}

/** A short sign, not a word: n50, C_L, ρi, N. */
const isSymbol = (text: string): boolean =>
  text.length <= 9 && !/\s|^\p{Ll}{4,}$/u.test(text) && !isUnit(text) && /\p{L}/u.test(text);

/** Begins like a name or is too long for a sign. */
const isName = (text: string): boolean => text.length > 16 || /^\p{Lu}\p{Ll}{2}/u.test(text);
