import { areaAddress, type Evaluation } from "../../workbook/index";
import { counted, listed } from "../shared/words";

/** Formulas that show one cell of a table: so a program writes them that does not mark them as array formulas. */
export function cutTableCautions({ cells }: Evaluation): string[] {
  const cut = cells.flatMap((cell) => (cell.cutTable ? [{ ...cell, table: cell.cutTable }] : []));
  const [first] = cut;
  if (!first) return [];
  const [rows, columns] = first.table;
  const { row, column, address } = first;
  const area = areaAddress({ top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 });
  const others = cut.slice(1).map((cell) => cell.address);
  const same = others.length > 0 ? `; the same in ${counted(others.length, "cell")} (${listed(others, 4)})` : "";
  return [
    `${address} shows only the first cell of a table of ${counted(rows, "row")} and ${counted(columns, "column")}, since its formula is written for one cell: ` +
      `write it as an array formula over ${area} (in Excel: remove the @ after the =; in openpyxl: ArrayFormula("${area}", "=…"))${same}`,
  ];
}
