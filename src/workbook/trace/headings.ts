import { cellKey, type Book } from "../model";
import { isInside } from "../formula/values/value";
import type { Look, SheetTexts } from "./sheet-texts";
import { isUnit, splitUnit } from "./unit-text";

const longestRun = 600;
const longestHeadingLine = 14;

interface Heading {
  readonly text: string;
  readonly unit: string;
}

/** Finds what stands above a cell: the column's name in its table, or the lowest lines of typed text above the figures. */
export class Headings {
  private readonly headingRows = new Map<number, number | undefined>();

  constructor(
    private readonly book: Book,
    private readonly look: Look,
    private readonly texts: SheetTexts,
  ) {}

  above(sheet: number, row: number, column: number, isText: boolean): Heading {
    const table = this.book.tables.find((one) => one.sheet === sheet && isInside(one.area, row, column));
    if (table) {
      const { words, unit } = splitUnit(table.columns[column - table.area.left] ?? "");
      return row < table.area.top + table.headerRows ? { text: "", unit: "" } : { text: words, unit };
    }
    const lowest = this.headingRow(sheet, row, column);
    if (lowest === undefined) return { text: "", unit: "" };
    const run: { readonly text: string; readonly row: number }[] = [];
    for (let at = lowest; at >= 0 && run.length < longestRun; at -= 1) {
      const text = this.texts.typed(sheet, at, column);
      if (text === undefined) break;
      run.push({ text, row: at });
    }
    if (!isText) return headingOf(run.map(({ text }) => text));
    // Typed texts below each other: the heading is the topmost that has other headings beside it; a title stands alone.
    const heading = run.findLast((line) => this.hasNeighbour(sheet, line.row, column)) ?? run.at(-1);
    return headingOf(heading ? [heading.text] : []);
  }

  /** The row of the lowest typed text above a cell, over figures, results and gaps within a table; undefined where there is none. */
  private headingRow(sheet: number, row: number, column: number): number | undefined {
    const passed: number[] = [];
    let found: number | undefined;
    for (let at = row - 1; at >= 0; at -= 1) {
      const key = sheet * 2 ** 34 + cellKey(at, column);
      if (this.texts.typed(sheet, at, column) !== undefined) {
        found = at;
        break;
      }
      if (this.headingRows.has(key)) {
        found = this.headingRows.get(key);
        break;
      }
      if (this.look(sheet, at, column).value === null && !this.goesOn(sheet, at, column)) break;
      passed.push(key);
    }
    // Every cell passed on the way up has the same heading.
    for (const key of passed) this.headingRows.set(key, found);
    return found;
  }

  private hasNeighbour(sheet: number, row: number, column: number): boolean {
    const left = this.texts.merged(sheet, row, column - 1)?.left ?? column - 1;
    const right = (this.texts.merged(sheet, row, column)?.right ?? column) + 1;
    return (
      this.texts.typed(sheet, row, right) !== undefined ||
      (left >= 0 && this.texts.typed(sheet, row, left) !== undefined)
    );
  }

  /** A blank cell within a table: figures or results stand beside it. */
  private goesOn(sheet: number, row: number, column: number): boolean {
    for (const near of [column - 1, column + 1, column - 2, column + 2]) {
      if (near < 0) continue;
      const { value, typed } = this.look(sheet, row, near);
      if (typeof value === "number" || (!typed && value !== null)) return true;
    }
    return false;
  }
}

/** The lowest lines of a heading, from the bottom up: a unit may stand below the words, which may take several short lines. */
function headingOf(run: readonly string[]): Heading {
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
