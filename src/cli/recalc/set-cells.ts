import {
  areaAddress,
  cellKey,
  cellAddress,
  partOfArray,
  sentence,
  shorten,
  type Area,
  type Book,
  type CellPatch,
} from "../../workbook/index";
import { BadArgument } from "../shared/bad-argument";
import type { Setting } from "./set-text";
import { listed, shownFormula } from "../shared/words";

/** Finds the cells of all settings in the book; throws BadArgument for a cell that cannot sensibly be set. */
export function locateSettings(book: Book, settings: readonly Setting[], overFormulas: boolean): CellPatch[] {
  const seen = new Set<string>();
  return settings.map((setting) => {
    const sheet = sheetIndex(book, setting);
    const refusal = refusalOf(book, sheet, setting, overFormulas);
    if (refusal !== undefined) throw new BadArgument(`--set "${shorten(setting.typed)}": ${refusal}`);
    const key = `${sheet} ${cellKey(setting.row, setting.column)}`;
    if (seen.has(key)) throw new BadArgument(sentence`--set "${setting.typed}": this cell is set twice`);
    seen.add(key);
    return { sheet, row: setting.row, column: setting.column, value: setting.value };
  });
}

function sheetIndex(book: Book, { sheet, typed }: Setting): number {
  const index = book.sheets.findIndex(({ name }) => name.toLowerCase() === sheet.toLowerCase());
  if (index >= 0) return index;
  const names = book.sheets.map(({ name }) => shorten(name));
  throw new BadArgument(
    `--set "${shorten(typed)}": there is no sheet "${shorten(sheet)}"; the workbook has ${listed(names, 12)}`,
  );
}

function refusalOf(book: Book, sheet: number, { row, column }: Setting, overFormulas: boolean): string | undefined {
  const cells = book.sheets[sheet]?.cells ?? new Map<number, never>();
  const inside = (area: Area): boolean =>
    row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;
  const formula = cells.get(cellKey(row, column))?.formula;
  if (formula && !overFormulas) {
    return `${cellAddress(row, column)} holds a formula (${shownFormula(formula.text)}); set one of its inputs, or add --over-formulas`;
  }
  for (const cell of cells.values()) {
    const array = cell.formula?.array;
    if (array && cell.formula !== formula && inside(array)) {
      return `${cellAddress(row, column)} is filled by the formula in ${cellAddress(cell.row, cell.column)}`;
    }
  }
  const part = partOfArray(book.sheets[sheet], row, column);
  if (part !== undefined) return part;
  const merged = book.sheets[sheet]?.mergedAreas.find(inside);
  if (merged && (merged.top !== row || merged.left !== column)) {
    return `${cellAddress(row, column)} is hidden in the merged cells ${areaAddress(merged)}; set ${cellAddress(merged.top, merged.left)}`;
  }
  const table = book.tables.find((candidate) => candidate.sheet === sheet && inside(candidate.area));
  if (table && row < table.area.top + table.headerRows)
    return `${cellAddress(row, column)} is a heading of the table ${table.name}`;
  return undefined;
}
