import { cellKey, type Book } from "../model";
import { Labels } from "../trace/labels";

/** The words beside the cells of a book, as a trace uses them. */
export function labelsOf(book: Book): Labels {
  return new Labels(book, (sheet, row, column) => {
    const cell = book.sheets[sheet]?.cells.get(cellKey(row, column));
    return { value: cell?.value ?? null, typed: !cell?.formula };
  });
}
