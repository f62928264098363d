import type { MethodError } from "../../core/index";
import { type LeakageReading } from "../../core/index";
import { isBlank, isBlankOrZero, isOmitted, numberIn, plain, rowsOf, wordIn } from "./cells";
import { invalid, missing } from "./rule-codes";

/** The readings of one direction as entered in the sheet. */
export interface SheetReadings {
  /** How many rows the ranges have, blank ones included, so that each can have a result beside it. */
  readonly height: number;
  /** Readings that count. */
  readonly used: readonly LeakageReading[];
  /** Readings that stay visible but do not count. */
  readonly excluded: readonly LeakageReading[];
}

function transposed(rows: unknown[][]): unknown[][] {
  return (rows[0] ?? []).map((_, column) => rows.map((row) => row[column]));
}

/** A range as rows of readings; one written across, in a single row, is turned. */
function asRows(argument: unknown, across: boolean): unknown[][] {
  const rows = rowsOf(argument);
  return across ? transposed(rows) : rows;
}

/** A fan that is not running is marked by a word: a 0 could be a blank cell that a host sent as 0. */
function isResting(cell: unknown): boolean {
  return typeof cell === "string" && cell.trim().toLowerCase() === "off";
}

/**
 * Flow of one reading: several columns are several fans, added; undefined where all are blank. A fan that has flows elsewhere and none in this row is missing:
 * without it the row would count with part of its flow.
 */
function flowOfFans(cells: readonly unknown[], fansInUse: readonly boolean[], row: number): number | undefined {
  let sum: number | undefined;
  let absent: number | undefined;
  const severalFans = cells.length > 1;
  for (const [index, cell] of cells.entries()) {
    if (severalFans && isResting(cell)) continue;
    const flow = numberIn(cell, "flows", row);
    if (flow !== undefined && flow < 0) throw invalid("flows", "zeroOrMore", { got: flow }, row);
    if (flow !== undefined && (flow > 0 || !severalFans)) sum = (sum ?? 0) + flow;
    else if (fansInUse[index] === true) absent ??= index + 1;
  }
  if (sum !== undefined && absent !== undefined && severalFans) {
    throw missing("flows", "fanWithoutFlow", { row, fan: absent });
  }
  return sum;
}

function isIncluded(cell: unknown, row: number): boolean {
  const word = wordIn(cell, "include", row);
  if (word === undefined || word === "yes") return true;
  if (word === "no") return false;
  throw invalid("include", "notOneOf", { given: word, words: ["yes", "no"] }, row);
}

/** One row: undefined where it is blank; half a pair is missing its other half; a 0 beside a number is an error, not a blank. */
function reading(
  [pressureCell, timeCell]: readonly [pressure: unknown, time?: unknown],
  flowCells: readonly unknown[],
  fansInUse: readonly boolean[],
  row: number,
): LeakageReading | undefined {
  const pressureIsBlank = isBlankOrZero(plain(pressureCell, "pressures", row));
  const flow = flowOfFans(flowCells, fansInUse, row);
  const flowIsBlank = flow === undefined || flow === 0;
  if (pressureIsBlank && flowIsBlank) return undefined;
  if (pressureIsBlank) throw halfPair("pressure", isBlank(pressureCell), row);
  if (flowIsBlank) throw halfPair("flow", flow === undefined, row);
  const time = numberIn(timeCell, "pressures", row);
  return { pressure: numberIn(pressureCell, "pressures", row)!, flow, row, ...(time !== undefined && { time }) };
}

/** Half a pair lacks the other half where its cell is blank; a 0 there is no reading. */
function halfPair(lacks: "pressure" | "flow", isBlank: boolean, row: number): MethodError {
  return (isBlank ? missing : invalid)(`${lacks}s`, "halfPair", { row, lacks, isZero: !isBlank });
}

/**
 * Pairs pressures and flows row by row.
 * @param times "in front": the pressures may have a column of times before them.
 * Errors: ranges of different size; half pairs; text; words other than yes and no under `include`.
 */
export function pairedReadings(
  pressures: unknown,
  flows: unknown,
  include: unknown,
  times: "none" | "in front" = "none",
): SheetReadings {
  const given = rowsOf(pressures);
  const across = given.length === 1 && (given[0]?.length ?? 0) > 1;
  const pressureRows = asRows(pressures, across);
  const flowRows = asRows(flows, across);
  const includeRows = isOmitted(include) ? undefined : asRows(include, across);
  const height = pressureRows.length;
  const sameHeight = (rows: unknown[][], argument: string) => {
    if (rows.length === height) return;
    throw invalid(argument, "unlikeSize", { count: rows.length, others: height, of: "pressures" });
  };
  sameHeight(flowRows, "flows");
  if (includeRows !== undefined) sameHeight(includeRows, "include");
  const includeWidth = includeRows?.[0]?.length ?? 1;
  if (includeWidth !== 1) throw invalid("include", "oneColumn", { got: includeWidth });

  const fansInUse = (flowRows[0] ?? []).map((_, fan) => flowRows.some((row) => !isBlankOrZero(row[fan])));
  const used: LeakageReading[] = [];
  const excluded: LeakageReading[] = [];
  pressureRows.forEach((cells, index) => {
    const row = index + 1;
    const pair = reading(pressureAndTime(cells, times), flowRows[index]!, fansInUse, row);
    if (pair !== undefined) (isIncluded(includeRows?.[index]?.[0], row) ? used : excluded).push(pair);
  });
  return { height, used, excluded };
}

function pressureAndTime(cells: readonly unknown[], times: "none" | "in front"): [pressure: unknown, time?: unknown] {
  if (cells.length === 1) return [cells[0]];
  if (cells.length === 2 && times === "in front") return [cells[1], cells[0]];
  throw times === "none"
    ? invalid("pressures", "oneColumn", { got: cells.length })
    : invalid("pressures", "columns", { columns: "time and pressure, or pressure", got: cells.length });
}

/**
 * Induced pressures as magnitudes, whichever sign they carry. Errors: mixed signs among the readings that count, naming the first row of the other sign.
 */
export function asMagnitudes(readings: SheetReadings): SheetReadings {
  const first = readings.used[0];
  const positive = (reading: LeakageReading, isUsed: boolean): LeakageReading => {
    if (first !== undefined && isUsed && reading.pressure * first.pressure < 0) {
      throw invalid("pressures", "otherSign", { pressure: reading.pressure, first: first.row }, reading.row);
    }
    return { ...reading, pressure: Math.abs(reading.pressure) };
  };
  return {
    ...readings,
    used: readings.used.map((reading) => positive(reading, true)),
    excluded: readings.excluded.map((reading) => positive(reading, false)),
  };
}
