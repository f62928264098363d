import { t95 } from "./student";
import type { CellFunction } from "../shipped";
import type { Truth } from "./physics/house";
import type { Setting, Sheet } from "./sheet";
import type { SimulatedTest } from "./simulate";

/** The cell functions by id. */
export type CellFunctions = ReadonlyMap<string, CellFunction>;

/** Results whose intervals are counted; "mean" is n50 of both directions, the others are of depressurization. */
export const quantities = ["mean", "n50", "q50", "n", "ELA4"] as const;

export type Quantity = (typeof quantities)[number];

/** An interval of 95 % as a cell function gives it, and the value that it should hold. */
export interface Interval {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
  /** Degrees of freedom of the t in it; Infinity where the table says ∞ or nothing. */
  readonly degrees: number;
  readonly truth: number;
}

export interface Evaluated {
  readonly intervals: Readonly<Record<Quantity, Interval>>;
  /** n50 of one direction between TESTRESULT's own limits, which hold the scatter alone. */
  readonly scatterOnly: Interval;
  /** Whether LEAKAGEDIFFERENCE calls the change between two tests of an unchanged house significant; absent where repeats are not compared. */
  readonly isSignificant?: boolean;
}

/** What became of one test: intervals, or the words with which a function refused it. */
export type Outcome = Evaluated | { readonly refused: string };

type Row = readonly unknown[];
type Rows = ReadonlyMap<unknown, Row>;

/** Rows of a table by the symbol in the second column. */
function rowsBySymbol(table: unknown): Rows {
  return new Map((table as Row[]).map((row) => [row[1], row]));
}

function cellOf(rows: Rows, symbol: string, column: number): unknown {
  const row = rows.get(symbol);
  if (row === undefined) throw new Error(`the table has no row "${symbol}"`);
  return row[column];
}

function numberIn(rows: Rows, symbol: string, column: number): number {
  const cell = cellOf(rows, symbol, column);
  if (typeof cell !== "number") throw new Error(`no number in row "${symbol}", column ${column + 1}`);
  return cell;
}

/** Degrees of freedom as a table gives them: blank and ∞ are infinite. */
function degreesIn(cell: unknown): number {
  return typeof cell === "number" ? cell : Infinity;
}

/** Value, limits and degrees of freedom in the columns of UNCERTAINTYBUDGET. */
function intervalIn(rows: Rows, symbol: keyof Truth, truth: Truth): Interval {
  const [value, lower, upper] = [2, 8, 9].map((column) => numberIn(rows, symbol, column)) as [number, number, number];
  return { value, lower, upper, degrees: degreesIn(cellOf(rows, symbol, 7)), truth: truth[symbol] };
}

/** The instruments are the same in both tests, and their errors with them: the rows of the table that a tester adds up as the common part. */
const commonRows = /^(g_e|g_f|gamma_0|gamma_[A-Z]|m_[A-Z])$/;

function commonPart(rows: Rows): number {
  const symbols = [...rows.keys()].filter((symbol) => commonRows.test(String(symbol))) as string[];
  return Math.hypot(...symbols.map((symbol) => numberIn(rows, symbol, 5)));
}

/** Whether LEAKAGEDIFFERENCE calls the change between the flows at 50 Pa of two tests significant. */
function callsSignificant(
  functions: CellFunctions,
  tests: readonly [before: Rows, after: Rows],
  truth: Truth,
): boolean {
  const flows = tests.map((rows) => intervalIn(rows, "q50", truth));
  const standard = ({ value, lower, upper, degrees }: Interval) => (value * Math.log(upper / lower)) / 2 / t95(degrees);
  const inCells = (of: (flow: Interval) => number) => flows.map((flow) => [[of(flow)]]);
  const degrees = flows.map((flow) => [[Number.isFinite(flow.degrees) ? flow.degrees : null]]);
  const common = Math.min(...tests.map(commonPart));
  const arguments_ = [...inCells(({ value }) => value), ...inCells(standard), [[common]], null, ...degrees];
  const [row] = functions.get("LEAKAGEDIFFERENCE")!(...arguments_) as [Row];
  return row[6] === "significant";
}

/**
 * Evaluates a simulated test as a user would: TESTRESULT, UNCERTAINTYBUDGET of one direction and of the mean of both, LEAKAGEDIFFERENCE where repeats are compared.
 * @param more Settings beyond those of the sheets: the technique, and what is stated or assumed with it.
 */
export function evaluate(
  { truth, depressurization, pressurization, repeat }: SimulatedTest,
  more: readonly Setting[],
  comparesRepeat: boolean,
  functions: CellFunctions,
): Outcome {
  const given = ({ direction, pressures, flows, before, after, settings }: Sheet) => {
    return [direction, pressures, flows, before, after, [...settings, ...more], null];
  };
  const budget = (sheet: Sheet, other: unknown = null) => functions.get("UNCERTAINTYBUDGET")!(...given(sheet), other);
  try {
    const one = budget(depressurization);
    const rows = rowsBySymbol(one);
    const mean = rowsBySymbol(budget(pressurization, one));
    const result = rowsBySymbol(functions.get("TESTRESULT")!(...given(depressurization)));
    return {
      intervals: {
        mean: {
          value: numberIn(mean, "result", 2),
          lower: numberIn(mean, "lower", 2),
          upper: numberIn(mean, "upper", 2),
          degrees: degreesIn(cellOf(mean, "dof", 2)),
          truth: truth.n50,
        },
        n50: intervalIn(rows, "n50", truth),
        q50: intervalIn(rows, "q50", truth),
        n: intervalIn(rows, "n", truth),
        ELA4: intervalIn(rows, "ELA4", truth),
      },
      scatterOnly: {
        value: numberIn(result, "n50", 2),
        lower: numberIn(result, "n50", 3),
        upper: numberIn(result, "n50", 4),
        degrees: Infinity,
        truth: truth.n50,
      },
      ...(comparesRepeat && {
        isSignificant: callsSignificant(functions, [rows, rowsBySymbol(budget(repeat))], truth),
      }),
    };
  } catch (error) {
    return { refused: error instanceof Error ? error.message : String(error) };
  }
}
