import { buildCellKey, openWorkbook, parsePlace, type Book, type Cell } from "../../../src/workbook/index";
import { sheetOf } from "./package";

export function cellOf(book: Book, address: string, sheet = 0): Cell | undefined {
  const place = parsePlace(address);
  if (!place) throw new Error(address);
  return book.sheets[sheet]?.cells.get(buildCellKey(place.row, place.column));
}

export const bookOf = (rows: string, options = {}): Book => openWorkbook(sheetOf(rows, options)).book;
