import { type EvaluatedCell, type Evaluation, formatAreaAddress, formatCount, formatList } from "../../workbook/index";

/** What is wrong with how a program stored the add-in's calls, and recalculating does not show: Excel would show less, or #NAME?. */
export function cautionStoredCalls({ cells }: Evaluation): string[] {
  const formulas = cells.filter(({ role }) => role === "formula");
  return [...cautionUnbound(formulas), ...cautionOneCell(formulas), ...cautionShortArrays(formulas)];
}

/** Further cells with the same fault. */
function listOthers([, ...others]: readonly EvaluatedCell[]): string {
  if (others.length === 0) return "";
  const addresses = others.map(({ address }) => address);
  return `; the same in ${formatCount(others.length, "cell")} (${formatList(addresses, 4)})`;
}

function cautionUnbound(cells: readonly EvaluatedCell[]): string[] {
  const unbound = cells.filter(({ plainAddIn }) => plainAddIn);
  const [first] = unbound;
  if (!first) return [];
  return [
    `${first.address} holds a call that is not bound to the add-in: Excel shows #NAME? until someone enters the formula anew. ` +
      `Store calls as _xldudf_STILLAIR_NAME(…), not as STILLAIR.NAME(…)${listOthers(unbound)}`,
  ];
}

/** Formulas that show one cell of a table, as written by a program that does not mark array formulas. */
function cautionOneCell(cells: readonly EvaluatedCell[]): string[] {
  const cut = cells.filter(({ cutTable }) => cutTable && cutTable.shown[0] * cutTable.shown[1] === 1);
  const [first] = cut;
  if (!first?.cutTable) return [];
  const [rows, columns] = first.cutTable.whole;
  const area = findArea(first, rows, columns);
  return [
    `${first.address} shows only the first cell of a table of ${formatCount(rows, "row")} and ${formatCount(columns, "column")}, because its formula is stored for one cell: ` +
      `write it as an array formula over ${area} (in Excel: remove the @ after the =; in openpyxl: ArrayFormula("${area}", "=…"))${listOthers(cut)}`,
  ];
}

/** Array formulas over fewer cells than their tables have; each has a size of its own. */
function cautionShortArrays(cells: readonly EvaluatedCell[]): string[] {
  return cells.flatMap((cell) => {
    const { address, cutTable } = cell;
    if (!cutTable || cutTable.shown[0] * cutTable.shown[1] === 1) return [];
    const [rows, columns] = cutTable.whole;
    const missing = [
      ...describePart(cutTable.shown[0], rows, "row"),
      ...describePart(cutTable.shown[1], columns, "column"),
    ];
    return [
      `${address} shows ${missing.join(" and ")} of its table: enter the array over ${findArea(cell, rows, columns)}`,
    ];
  });
}

const describePart = (shown: number, whole: number, noun: string): string[] =>
  shown < whole ? [`${shown} of ${formatCount(whole, noun)}`] : [];

const findArea = ({ row, column }: EvaluatedCell, rows: number, columns: number): string =>
  formatAreaAddress({ top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 });
