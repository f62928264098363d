import { MethodError } from "../../core/index";
import { isBlankOrZero, numberIn, oneOf, onlyCell, plain, rowsOf } from "./cells";
import { type CellResult, finite, toCellError } from "./host-error";
import { invalid, missing } from "./rule-codes";
import { argumentOf } from "./error-sentences";

/** An argument of a function that works cell by cell. */
export interface Input<Value> {
  readonly name: string;
  readonly rows: unknown[][];
  /** Reads one cell; undefined is blank. */
  readonly read: (cell: unknown, row?: number) => Value | undefined;
  /** True where a blank or omitted cell simply has no value; false where it leaves the result blank. */
  readonly optional: boolean;
}

/** Numbers among which 0 is a value: temperatures, altitudes, baselines, exponents. A blank leaves the result blank. */
export function numbers(name: string, argument: unknown): Input<number> {
  return { name, rows: rowsOf(argument), read: (cell, row) => numberIn(cell, name, row), optional: false };
}

/** Numbers that cannot be 0, so that a 0 is a blank cell sent as 0: flows, areas, volumes, pressures. */
export function sizes(name: string, argument: unknown): Input<number> {
  const read = (cell: unknown, row?: number) =>
    isBlankOrZero(plain(cell, name, row)) ? undefined : numberIn(cell, name, row);
  return { name, rows: rowsOf(argument), read, optional: false };
}

/** Words of a list, cell by cell. */
export function words<Word extends string>(name: string, argument: unknown, list: readonly Word[]): Input<Word> {
  return { name, rows: rowsOf(argument), read: (cell, row) => oneOf(cell, list, name, row), optional: false };
}

/** The same input, where a blank or omitted value is not given rather than blank. */
export function optional<Value>(input: Input<Value>): Input<Value | undefined> {
  return { ...input, optional: true };
}

type Inputs = Record<string, Input<unknown>>;

type Values<Of extends Inputs> = { [Name in keyof Of]: Of[Name] extends Input<infer Value> ? Value : never };

function commonSize(inputs: readonly Input<unknown>[], measure: (rows: unknown[][]) => number, unit: string): number {
  let size = 1;
  let from: string | undefined;
  for (const { name, rows } of inputs) {
    const own = measure(rows);
    if (own <= 1 || own === size) continue;
    if (size > 1) throw invalid(name, "unlikeSize", { count: `${own} ${unit}`, others: size, of: `of ${from}` });
    size = own;
    from = name;
  }
  return size;
}

/** The argument whose size makes the result as large as it is. */
function largest(inputs: readonly Input<unknown>[]): string {
  const cells = ({ rows }: Input<unknown>) => rows.length * (rows[0]?.length ?? 0);
  return inputs.reduce((most, input) => (cells(input) > cells(most) ? input : most)).name;
}

function cellAt({ rows }: Input<unknown>, row: number, column: number): unknown {
  const cells = rows.length === 1 ? rows[0] : rows[row];
  return cells === undefined ? undefined : cells.length === 1 ? cells[0] : cells[column];
}

/** Names the row of a range argument in an error of the method, which knows only single values. */
function withRow(error: unknown, inputs: readonly Input<unknown>[], row: number): unknown {
  if (!(error instanceof MethodError) || error.place.row !== undefined) return error;
  const argument = argumentOf(error);
  const isRange = inputs.some(({ name, rows }) => name === argument && rows.length > 1);
  return isRange ? error.called({ row: row + 1 }) : error;
}

/**
 * Calculates cell by cell, arguments broadcast like Excel's own arithmetic: a single value, a row or a column combines with every cell
 * of a larger range. A required blank gives a blank. One bad cell affects only its own result, not the column; a single result throws.
 * Errors: ranges of different size; a result that is too large for Excel to carry.
 * @param calculate Gives one result, or one row of results for a column of inputs.
 * @param results How many cells each result has.
 */
export function spread<Of extends Inputs>(
  inputs: Of,
  calculate: (values: Values<Of>) => CellResult | CellResult[],
  results = 1,
): unknown[][] {
  const named = Object.entries(inputs);
  const list = Object.values(inputs);
  const height = commonSize(list, (rows) => rows.length, "rows");
  const width = commonSize(list, (rows) => rows[0]?.length ?? 0, "columns");
  requireCarried(height * width * results, largest(list));
  const single = height === 1 && width === 1;

  const resultAt = (row: number, column: number): unknown => {
    const values: Record<string, unknown> = {};
    for (const [key, input] of named) {
      const value = input.read(cellAt(input, row, column), input.rows.length > 1 ? row + 1 : undefined);
      if (value === undefined && !input.optional) return Array<string>(results).fill("");
      values[key] = value;
    }
    const result = calculate(values as Values<Of>);
    return Array.isArray(result) ? result.map(finite) : finite(result);
  };

  /** What one cell gives, its error included: a long column calls this for every row, so it makes no array that it does not return. */
  const cellsAt = (row: number, column: number): unknown => {
    try {
      return resultAt(row, column);
    } catch (error) {
      const told = withRow(error, list, row);
      if (single) throw told;
      return Array<Error>(results).fill(toCellError(told));
    }
  };

  return Array.from({ length: height }, (_, row) => {
    const cells: unknown[] = [];
    for (let column = 0; column < width; column += 1) {
      const result = cellsAt(row, column);
      if (Array.isArray(result)) cells.push(...(result as unknown[]));
      else cells.push(result);
    }
    return cells;
  });
}

/** Rows of results, where wanted under headings, which are repeated where the inputs had several columns. */
export function headed(names: readonly string[], rows: unknown[][], wanted: "yes" | "no" | undefined): unknown[][] {
  if (wanted !== "yes") return rows;
  const times = Math.ceil((rows[0]?.length ?? 0) / names.length);
  return [Array.from({ length: times }, () => names).flat(), ...rows];
}

/**
 * A single number that cannot be 0, so that a 0 is a blank cell; undefined where it is blank. Errors: more than one cell, of which all but one would be
 * silently ignored.
 */
export function oneOptionalNumber(argument: unknown, name: string): number | undefined {
  return numberIn(onlyCell(argument, name), name) || undefined;
}

/** The same, where a blank is missing. */
export function oneNumber(argument: unknown, name: string): number {
  const value = oneOptionalNumber(argument, name);
  if (value === undefined) throw missing(name, "notGiven");
  return value;
}

/**
 * Excel transfers 5 MB per call; a larger result stays at #BUSY!, with no error. 100 000 numbers are about 2 MB as text, which leaves room for words and errors
 * among them.
 */
const mostCells = 100_000;

/**
 * Refuses a result too large for Excel, before it is computed.
 * Errors: more than 100 000 cells; names the argument whose size makes it so large, and what to do.
 */
export function requireCarried(
  cells: number,
  argument: string,
  code: "beyondExcel" | "stationsBeyondExcel" = "beyondExcel",
): void {
  if (cells <= mostCells) return;
  throw invalid(argument, code, { cells, most: mostCells });
}
