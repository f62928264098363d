import type { CellsContent, ShownCell } from "../../views/desk/cells";

/** More cells than a person's workbook has; a sheet that claims more is formatted to its end. */
const mostCells = 400_000;

/** Reads every used cell of the workbook through Excel, for where it does not hand over the file. */
export function readCells(): Promise<CellsContent> {
  return Excel.run(async (context) => {
    const { worksheets, names, tables } = context.workbook;
    worksheets.load("items/name,items/visibility");
    names.load("items/name,items/formula");
    tables.load("items/name,items/showHeaders,items/showTotals");
    await context.sync();

    const used = worksheets.items.map((sheet) => {
      const range = sheet.getUsedRangeOrNullObject(true);
      range.load("rowIndex,columnIndex,rowCount,columnCount,formulas,values,numberFormat");
      // The workbook's own list leaves out the names that belong to one sheet.
      sheet.names.load("items/name,items/formula");
      return range;
    });
    const read = tables.items.map((table) => {
      const range = table.getRange();
      range.load("rowIndex,columnIndex,rowCount,columnCount");
      table.worksheet.load("name");
      table.columns.load("items/name");
      return { table, range };
    });
    await context.sync();
    const total = used.reduce((sum, range) => sum + (range.isNullObject ? 0 : range.rowCount * range.columnCount), 0);
    if (total > mostCells) throw new Error(`the workbook has more than ${mostCells} cells in use`);

    const cells = used.map((range) => (range.isNullObject ? [] : listCells(range)));
    const spills = worksheets.items.flatMap((sheet, index) =>
      (cells[index] ?? []).filter(({ formula }) => maySpill(formula)).map((cell) => ({ sheet, cell })),
    );
    const areas = spills.map(({ sheet, cell }) => {
      const area = sheet.getCell(cell.row, cell.column).getSpillingToRangeOrNullObject();
      area.load("rowIndex,columnIndex,rowCount,columnCount");
      return area;
    });
    if (areas.length > 0) await context.sync();
    const spilled = new Map(
      spills.flatMap(({ cell }, index) => {
        const area = areas[index];
        if (!area || area.isNullObject) return [];
        const { rowIndex: top, columnIndex: left, rowCount, columnCount } = area;
        return [[cell, { top, left, bottom: top + rowCount - 1, right: left + columnCount - 1 }] as const];
      }),
    );
    const sheetNames = worksheets.items.map(({ name }) => name);
    return {
      sheets: worksheets.items.map(({ name, visibility }, index) => ({
        name,
        isVisible: visibility === "Visible",
        cells: dropSpilled(cells[index] ?? [], spilled),
        hiddenRows: [],
      })),
      names: [
        ...listNames(names, undefined),
        ...worksheets.items.flatMap((sheet) => listNames(sheet.names, sheet.name)),
      ],
      tables: read.map(({ table, range }) => ({
        name: table.name,
        sheet: sheetNames.indexOf(table.worksheet.name),
        area: {
          top: range.rowIndex,
          left: range.columnIndex,
          bottom: range.rowIndex + range.rowCount - 1,
          right: range.columnIndex + range.columnCount - 1,
        },
        columns: table.columns.items.map(({ name }) => name),
        headerRows: table.showHeaders ? 1 : 0,
        totalsRows: table.showTotals ? 1 : 0,
      })),
    };
  });
}

/** Areas, and constants and formulas as well: a limit may be a name alone. */
const listNames = ({ items }: Excel.NamedItemCollection, sheet: string | undefined) =>
  items.map(({ name, formula }) => ({ name, sheet, formula: String(formula) }));

/** A formula of one value does not spill; a call, an area or an array may. */
const maySpill = (formula: string): boolean => formula.startsWith("=") && /[(:{#]/.test(formula);

function listCells({ rowIndex, columnIndex, formulas, values, numberFormat }: Excel.Range): ShownCell[] {
  type Value = ShownCell["value"];
  return (values as Value[][]).flatMap((inRow, down) =>
    inRow.flatMap((value, right): ShownCell[] => {
      const entry: unknown = formulas[down]?.[right];
      const formula = typeof entry === "string" && entry.startsWith("=") ? entry : "";
      if (value === "" && formula === "") return [];
      const format = String(numberFormat[down]?.[right] ?? "General");
      return [{ row: rowIndex + down, column: columnIndex + right, value, formula, format }];
    }),
  );
}

/** Cells that a result fills repeat its formula in some versions of Excel; only the first of them keeps it. */
function dropSpilled(cells: readonly ShownCell[], spilled: ReadonlyMap<ShownCell, ShownCell["spill"]>): ShownCell[] {
  const areas = cells.flatMap((cell) => {
    const area = spilled.get(cell);
    return area ? [{ cell, area }] : [];
  });
  const isFilled = ({ row, column, formula }: ShownCell): boolean =>
    areas.some(
      ({ cell, area }) =>
        (row !== cell.row || column !== cell.column) &&
        (formula === "" || formula === cell.formula) &&
        row >= area.top &&
        row <= area.bottom &&
        column >= area.left &&
        column <= area.right,
    );
  return cells.map((cell) => {
    const spill = spilled.get(cell);
    if (spill) return { ...cell, spill };
    return isFilled(cell) ? { ...cell, formula: "" } : cell;
  });
}
