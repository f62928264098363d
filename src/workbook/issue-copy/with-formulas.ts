import { cellKey, type Book, type Cell, type Formula, type Sheet } from "../model";
import { asStored } from "../formula/parse/as-typed";
import type { ListedFormula } from "./listed-formulas";
import { readIssueMark } from "./mark";

/**
 * The book with the listed formulas of an issue copy in their cells again, every value as it is stored: what it was before it was issued,
 * for whoever has the add-in. The same book where it is no issue copy.
 */
export function withFrozenFormulas(book: Book): Book {
  const mark = readIssueMark(book);
  if (!mark) return book;
  const sheets = book.sheets.map((sheet): Sheet => {
    const listed = mark.formulas.filter((one) => one.sheet === sheet.name);
    if (listed.length === 0) return sheet;
    const cells = new Map(sheet.cells);
    for (const { area, kind, formula } of listed) {
      const key = cellKey(area.top, area.left);
      const own: Cell = cells.get(key) ?? { row: area.top, column: area.left, value: null, format: "General" };
      cells.set(key, { ...own, formula: formulaOf({ area, kind, formula }) });
    }
    return { ...sheet, cells };
  });
  return { ...book, sheets };
}

function formulaOf({ area, kind, formula }: Omit<ListedFormula, "sheet">): Formula {
  const text = asStored(formula);
  if (kind === "one cell") return { text };
  return kind === "spilling" ? { text, array: area, dynamic: true } : { text, array: area };
}
