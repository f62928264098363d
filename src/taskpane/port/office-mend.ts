import { formatSelected } from "./addresses";
import { PortProblem, type UnboundSheet } from "./port";

/** The sheets with cells where formulas of the add-in show #NAME? or hold the text of a file without the add-in. */
export async function findUnboundSheets(context: Excel.RequestContext): Promise<UnboundSheet[]> {
  const sheets = await loadSheets(context);
  return sheets.flatMap(({ name, isProtected, used }): UnboundSheet[] => {
    const count = used.isNullObject ? 0 : listUnbound(used).length;
    return count === 0 ? [] : [{ name, count, isProtected }];
  });
}

/** Enters the formulas of one sheet again and says how many; a protection without a password is opened, and set again with the options it had. */
export async function mendSheet(context: Excel.RequestContext, name: string): Promise<number> {
  const sheet = context.workbook.worksheets.getItem(name);
  const used = sheet.getUsedRangeOrNullObject(true);
  used.load("rowIndex,columnIndex,formulas,values");
  const { protection } = sheet;
  protection.load("protected,options");
  await context.sync();
  if (used.isNullObject) return 0;
  const places = listUnbound(used);
  const { protected: isProtected, options } = protection;
  if (isProtected) {
    protection.unprotect();
    try {
      await context.sync();
    } catch {
      throw new PortProblem(`The sheet “${name}” is protected with a password: take it off and mend again.`);
    }
  }
  try {
    await enterAgain(context, sheet, name, places);
  } catch (problem) {
    if (isProtected) await protectAgain(context, protection, options, name, `${describe(problem)} `);
    throw problem;
  }
  if (isProtected) await protectAgain(context, protection, options, name);
  return places.length;
}

/** @param before What went wrong already. */
async function protectAgain(
  context: Excel.RequestContext,
  protection: Excel.WorksheetProtection,
  options: Excel.WorksheetProtectionOptions,
  name: string,
  before = "",
): Promise<void> {
  try {
    protection.protect(options);
    await context.sync();
  } catch (problem) {
    throw new PortProblem(
      `${before}The sheet “${name}” is left unprotected, because Excel refused to protect it again: ${describe(problem)} Protect it yourself.`,
    );
  }
}

/** Excel's own words as a sentence. */
const describe = (problem: unknown): string =>
  (problem instanceof Error ? problem.message : String(problem)).replace(/[^.]$/, "$&.");

async function loadSheets(context: Excel.RequestContext) {
  const { worksheets } = context.workbook;
  worksheets.load("items/name");
  await context.sync();
  const sheets = worksheets.items.map(({ name, protection }) => {
    const used = worksheets.getItem(name).getUsedRangeOrNullObject(true);
    used.load("rowIndex,columnIndex,formulas,values");
    protection.load("protected");
    return { name, protection, used };
  });
  await context.sync();
  return sheets.map(({ name, protection, used }) => ({ name, isProtected: protection.protected, used }));
}

/**
 * Enters formulas one by one. Excel changes no part of an array formula, and other programs write a result that fills several cells as one: there the
 * equal formulas of the block give way to a single one, whose result spills.
 */
async function enterAgain(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  name: string,
  places: readonly UnboundCell[],
): Promise<void> {
  const waiting = [...places];
  /* eslint-disable office-addins/no-context-sync-in-loop -- each formula may be refused, and then its block is entered otherwise */
  for (let first = waiting.shift(); first; first = waiting.shift()) {
    const { row, column, formula } = first;
    try {
      sheet.getCell(row, column).formulas = [[formula]];
      await context.sync();
    } catch (problem) {
      const block = measureBlock(first, waiting);
      if (block.rows * block.columns === 1) throw problem;
      const area = sheet.getRangeByIndexes(block.row, block.column, block.rows, block.columns);
      area.clear("Contents");
      await context.sync();
      const cell = sheet.getCell(row, column);
      try {
        cell.formulas = [[formula]];
        await context.sync();
      } catch (refusal) {
        // Text is what Excel does not refuse.
        cell.values = [[`'${formula}`]];
        await context.sync().catch(() => undefined);
        const address = formatSelected({ sheet: name, ...block });
        throw new PortProblem(
          `${address} was cleared, and Excel refused its formula: ${describe(refusal)} Enter it again there: ${formula}`,
        );
      }
      const isOutside = (cell: UnboundCell): boolean =>
        cell.row >= row + block.rows || cell.column < column || cell.column >= column + block.columns;
      waiting.splice(0, waiting.length, ...waiting.filter(isOutside));
    }
  }
  /* eslint-enable office-addins/no-context-sync-in-loop */
}

/** The rectangle of cells with the same formula, from its first cell on. */
function measureBlock({ row, column, formula }: UnboundCell, others: readonly UnboundCell[]) {
  const isAlike = (atRow: number, atColumn: number): boolean =>
    others.some((cell) => cell.row === atRow && cell.column === atColumn && cell.formula === formula);
  let [rows, columns] = [1, 1];
  while (isAlike(row + rows, column)) rows += 1;
  while (isAlike(row, column + columns)) columns += 1;
  return { row, column, rows, columns };
}

interface UnboundCell {
  readonly row: number;
  readonly column: number;
  readonly formula: string;
}

/** The cells where a formula of the add-in begins that shows #NAME?; cells that it fills are not entered by themselves. */
function listUnbound({ rowIndex, columnIndex, formulas, values }: Excel.Range): UnboundCell[] {
  return (values as unknown[][]).flatMap((inRow, down) =>
    inRow.flatMap((value, right): UnboundCell[] => {
      const formula: unknown = formulas[down]?.[right];
      if (typeof formula !== "string" || !/STILLAIR[._]/i.test(formula) || !formula.startsWith("=")) return [];
      if (value !== "#NAME?" && !formula.includes("_xldudf_")) return [];
      const typed = formula.replace(/_xldudf_STILLAIR_/gi, "STILLAIR.");
      return [{ row: rowIndex + down, column: columnIndex + right, formula: typed }];
    }),
  );
}
