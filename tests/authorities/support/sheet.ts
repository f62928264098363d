/** Cells as a host hands them to a function. */
export type Cell = number | string | boolean | null;

/** A column of cells from a list. */
export function column(values: readonly Cell[]): Cell[][] {
  return values.map((value) => [value]);
}

/** A settings block of two columns, label and value. */
export function block(settings: Readonly<Record<string, Cell>>): Cell[][] {
  return Object.entries(settings);
}

/** Rows of a table that spilled: symbol in the second column, value, lower and upper in the next three. */
function rowOf(table: readonly (readonly unknown[])[], symbol: string): readonly unknown[] {
  const found = table.filter((row) => row[1] === symbol);
  const [row] = found;
  if (found.length !== 1 || row === undefined) throw new Error(`${found.length} rows with the symbol ${symbol}`);
  return row;
}

/** The number in a cell of a result; anything else is a failure, not a NaN. */
export function numberOf(cell: unknown): number {
  if (typeof cell !== "number") throw new Error(`a number was expected, not ${String(cell)}`);
  return cell;
}

export function valueOf(table: readonly (readonly unknown[])[], symbol: string): number {
  return numberOf(rowOf(table, symbol)[2]);
}

export function limitsOf(table: readonly (readonly unknown[])[], symbol: string): { lower: number; upper: number } {
  const row = rowOf(table, symbol);
  return { lower: numberOf(row[3]), upper: numberOf(row[4]) };
}

/** The one number of a result of one cell. */
export function single(result: readonly (readonly unknown[])[]): number {
  const [row] = result;
  if (result.length !== 1 || row?.length !== 1) throw new Error("a result of one cell was expected");
  return numberOf(row[0]);
}
