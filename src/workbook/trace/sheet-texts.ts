import type { Area, Book, CellValue } from "../model";
import { isInside } from "../formula/values/value";

/** What the labels need to know of a cell: a typed value, a result, or nothing. */
export type Look = (
  sheet: number,
  row: number,
  column: number,
) => { readonly value: CellValue; readonly typed: boolean };

/** The texts of a book's sheets, as far as labels are made of them. */
export class SheetTexts {
  constructor(
    private readonly book: Book,
    private readonly look: Look,
  ) {}

  /** The merged cells that a cell is part of. */
  merged(sheet: number, row: number, column: number): Area | undefined {
    return this.book.sheets[sheet]?.mergedAreas.find((area) => isInside(area, row, column));
  }

  /** A typed text of at least one letter or sign, undefined for everything else. */
  typed(sheet: number, row: number, column: number): string | undefined {
    const { value, typed } = this.look(sheet, row, column);
    return typed && typeof value === "string" && value.trim() !== "" ? value.trim().replace(/\s+/g, " ") : undefined;
  }
}
