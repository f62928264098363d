import { uncertaintyBudget } from "../../../src/functions";
import { block, numberOf, type Cell } from "../../authorities/support/sheet";
import { column } from "../errors";

export type Table = unknown[][];

export const rowOf = (table: Table, symbol: string): unknown[] => {
  const found = table.filter((row) => row[1] === symbol);
  if (found.length !== 1) throw new Error(`${found.length} rows ${symbol}`);
  return found[0]!;
};

export const value = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[2]);

export const sensitivity = (table: Table, symbol: string) => numberOf(rowOf(table, symbol)[4]);

export const note = (table: Table, symbol: string) => String(rowOf(table, symbol)[10]);

/** The house of the guide. */
export const pressures = column(-61.3, -51.3, -41.3, -31.3, -21.3);

export const flows = column(574, 507, 441, 364, 281);

export const before = column(-1.2, -1.6, -1.4);

export const after = column(-1, -1.4, -1.2);

export const base = {
  volume: 229.2,
  "indoor temperature": 21,
  "outdoor temperature": 3,
  "flow basis": "actual at the fan",
};

export const house = (more: Record<string, Cell> = {}, other?: Table): Table =>
  uncertaintyBudget("depressurization", pressures, flows, before, after, block({ ...base, ...more }), undefined, other);
