import type { MethodError } from "../../core/index";
import {
  type BudgetRow,
  type Direction,
  directions,
  type ModelReading,
  type ModelTest,
  prepare,
  type SimulatedDirection,
  type Source,
} from "../../core/index";
import { isBlank, isOmitted, numberIn, plain, rowsOf } from "../cells/cells";
import type { Settings } from "../settings/settings";
import type { BudgetInput, RunBudget } from "./budget";
import { nameSource, sourceWords, unitOf } from "./words";
import { invalid } from "../cells/rule-codes";

/** The budget of another run, of the other direction or one more of the same, as its table is on the sheet. */
export interface OtherRun extends RunBudget {
  /** The readings as the table holds them for a simulation; blank where they were too many. */
  readonly readings: string;
}

const argument = "other_direction";

/** Columns of a table of UNCERTAINTYBUDGET. */
const columns = { what: 0, symbol: 1, value: 2, sensitivity: 4, contribution: 5, freedom: 7, note: 10 } as const;
const width = 11;

type Cells = readonly unknown[];

/** Tables one below the other, each from its first source on; the first cell of a table that is an error holds the error alone. */
function tablesIn(cells: unknown): Map<unknown, Cells>[] {
  const tables: Map<unknown, Cells>[] = [];
  for (const row of rowsOf(cells)) {
    const [, symbol] = row.slice(0, 2).map((cell) => plain(cell, argument));
    if (symbol === sourceWords[0]!.symbol || tables.length === 0) tables.push(new Map());
    tables.at(-1)!.set(symbol, row);
  }
  // What comes before the first source is a heading row.
  return tables.filter((table, index) => index === tables.length - 1 || table.has(sourceWords[0]!.symbol));
}

function runOfTable(table: ReadonlyMap<unknown, Cells>, quantity: string, settings: Settings): OtherRun {
  const cell = (symbol: string, column: number): unknown => {
    const row = table.get(symbol);
    if (row === undefined || row.length < width) throw invalid(argument, "budgetNeeded", { symbol });
    return plain(row[column], argument);
  };
  const wants = (symbol: string, holds: (value: unknown) => boolean, refuse: (got: string) => MethodError) => {
    const value = cell(symbol, columns.value);
    if (!holds(value)) throw refuse(String(value));
  };
  wants(
    "direction",
    (value) => directions.includes(value as Direction),
    (got) => invalid(argument, "budgetForNeeded", { wanted: "a single run", got }),
  );
  wants(
    "quantity",
    (value) => value === quantity,
    (got) => invalid(argument, "budgetForNeeded", { wanted: quantity, got }),
  );
  wants(
    "u_c",
    (value) => typeof value === "number",
    (got) => invalid(argument, "noBudgetUncertainty", { got }),
  );
  const rows = sourceWords.flatMap((words): BudgetRow[] => {
    const { symbol, ofOneRun, part } = words;
    if (words.opening !== undefined && cell(symbol, columns.what) !== nameSource(words, settings))
      throw invalid(argument, "budgetOpenings", { symbol });
    const uncertainty = numberIn(cell(symbol, columns.value), argument);
    if (uncertainty === undefined) return [];
    const { inMethod } = unitOf(words, settings);
    const sensitivity = numberIn(cell(symbol, columns.sensitivity), argument) ?? 0;
    const freedom = cell(symbol, columns.freedom);
    const degreesOfFreedom = isBlank(freedom) || freedom === "∞" ? Infinity : (numberIn(freedom, argument) ?? 0);
    if (!(degreesOfFreedom >= 1)) throw invalid(argument, "noBudgetFreedom", { symbol });
    const isContained = words.contained === true && numberIn(cell(symbol, columns.contribution), argument) === 0;
    return [
      {
        symbol,
        part,
        uncertainty: uncertainty * inMethod,
        sensitivity: sensitivity / inMethod,
        degreesOfFreedom,
        ofOneRun,
        contained: isContained || undefined,
      },
    ];
  });
  const value = numberIn(cell("result", columns.value), argument) ?? NaN;
  if (!(value > 0 || quantity === "n")) throw invalid(argument, "aboveZero");
  const readings = cell("mc_readings", columns.note);
  return {
    direction: cell("direction", columns.value) as Direction,
    value,
    rows,
    readings: typeof readings === "string" ? readings : "",
  };
}

/**
 * Reads the tables of the other runs: of the other direction, and of further runs of either, one table below the other.
 * Errors: rows that are not there (not a budget's table), a table of another result, of a mean, or one for which no uncertainty could be given; a table handed over twice, or that of this run itself.
 */
export function otherRuns(
  cells: unknown,
  quantity: string,
  { test }: BudgetInput,
  ownValue: number | undefined,
  settings: Settings,
): OtherRun[] {
  if (isOmitted(cells)) return [];
  const runs = tablesIn(cells).map((table) => runOfTable(table, quantity, settings));
  const seen = new Set([`${test.direction} ${ownValue}`]);
  for (const { direction, value } of runs) {
    const run = `${direction} ${value}`;
    if (seen.has(run)) throw invalid(argument, "budgetTwice", { direction, value });
    seen.add(run);
  }
  return runs;
}

/**
 * A run written into one cell of its budget's table, so that the table of a mean can evaluate this run anew in a Monte Carlo check: its readings, its air and its own sources of error,
 * with all digits. A cell holds 32 767 characters, enough for some 200 readings.
 */
const longestText = 32_767;

type ReadingCells = (number | null)[];

function cellsOf({ row, pressure, flow, time, fan, pressureUncertainty, flowUncertainty }: ModelReading): ReadingCells {
  const { opening, exponent, logOverPivot, pressure: fanPressure } = fan;
  return [
    row,
    pressure,
    flow,
    time,
    opening,
    exponent,
    logOverPivot,
    fanPressure,
    pressureUncertainty,
    flowUncertainty,
  ].map((value) => value ?? null);
}

function readingFrom(cells: ReadingCells, isAssumed: boolean): ModelReading {
  const [row, pressure, flow, time, opening, exponent, logOverPivot] = cells as number[];
  const [fanPressure, pressureUncertainty, flowUncertainty] = cells.slice(7).map((value) => value ?? undefined);
  return {
    row: row!,
    pressure: pressure!,
    flow: flow!,
    time: time!,
    fan: { opening: opening!, exponent: exponent!, logOverPivot: logOverPivot!, pressure: fanPressure },
    pressureUncertainty,
    flowUncertainty,
    isAssumed,
  };
}

/** Blank where the run has too many readings for a cell. */
export function writeRun(test: ModelTest, sources: readonly Source[]): string {
  const { direction, baselineBefore, baselineAfter, zeroFollowsTime, air, standard, technique, noise } = test;
  const text = JSON.stringify({
    test: { direction, baselineBefore, baselineAfter, zeroFollowsTime, air, standard, technique, noise },
    readings: test.readings.map(cellsOf),
    sources,
  });
  return text.length > longestText ? "" : text;
}

/** Errors: a text that writeRun did not write. */
export function readRun(text: string): SimulatedDirection {
  try {
    const { test, readings, sources } = JSON.parse(text) as {
      test: Omit<ModelTest, "readings">;
      readings: ReadingCells[];
      sources: Source[];
    };
    return {
      test: prepare({ ...test, readings: readings.map((cells) => readingFrom(cells, !test.noise.stated)) }),
      sources,
    };
  } catch {
    throw invalid(argument, "budgetReadings");
  }
}
