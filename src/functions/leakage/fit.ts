import {
  assumedExponent,
  assumedExponentDeviation,
  fitLeakage,
  type LeakageFit,
  type LeakageReading,
  type Technique,
  techniques,
} from "../../core/index";
import { choice, isBlank, isBlankOrZero, isOmitted, numberIn, onlyCell, plain, rowsOf } from "../cells/cells";
import { asMagnitudes, pairedReadings, type SheetReadings } from "../cells/pairs";
import type { Input } from "../cells/spread";
import { row, type TableRow } from "../cells/table";
import { invalid, missing } from "../cells/rule-codes";

export function fitOf(
  pressures: unknown,
  flows: unknown,
  technique: unknown,
  include: unknown,
  pressureUncertainty?: unknown,
  flowUncertainty?: unknown,
): LeakageFit {
  const named = choice(technique, techniques, "technique", "ordinary");
  const readings = asMagnitudes(pairedReadings(pressures, flows, include));
  return fitLeakage(withUncertainties(readings, named, pressureUncertainty, flowUncertainty), named);
}

/** Degrees of freedom in a cell: a number, or the word "infinite" as the tables of this project write it; undefined where it is blank, which a 0 is too. */
function degreesIn(cell: unknown, name: string, row?: number): number | undefined {
  const value = plain(cell, name, row);
  if (isBlankOrZero(value)) return undefined;
  const infinite = typeof value === "string" && /^(infinite|infinity|∞)$/i.test(value.trim());
  return infinite ? Infinity : numberIn(value, name, row);
}

/** The same cell by cell. */
export function degreesOfFreedom(name: string, argument: unknown): Input<number> {
  return { name, rows: rowsOf(argument), read: (cell, row) => degreesIn(cell, name, row), optional: false };
}

/** The same from the only cell of an argument. */
export function oneDegreesOfFreedom(argument: unknown, name: string): number | undefined {
  return degreesIn(onlyCell(argument, name), name);
}

function sourceOf({ degreesOfFreedom, chiSquare }: LeakageFit): string {
  if (degreesOfFreedom === Infinity) return "stated uncertainties";
  return chiSquare === undefined ? "N − 2" : "N − 2: the scatter is larger than the stated uncertainties";
}

/** Degrees of freedom of a fit as a cell shows them, and where they come from. */
export function degreesOfFreedomRow(fit: LeakageFit): TableRow {
  const value = fit.degreesOfFreedom === Infinity ? "infinite" : fit.degreesOfFreedom;
  return row("degrees of freedom", "dof", value, "", sourceOf(fit));
}

/** What the expected exponent did to n; both values are blank for a technique that expects none. */
export function expectedExponentRows({ prior }: LeakageFit): TableRow[] {
  const [alone, houses] = prior
    ? ["weighted line without n of other houses", `n of other houses: ${assumedExponent} ± ${assumedExponentDeviation}`]
    : [];
  return [
    row("flow exponent of the readings alone", "n_data", prior?.exponentOfReadings, "–", alone),
    row("share of the expected exponent in n", "prior_share", prior?.share, "–", houses),
  ];
}

const takesUncertainties: readonly Technique[] = [
  "weighted",
  "weighted organic correlation",
  "errors in both",
  "weighted with expected exponent",
];

/** What an argument states of a reading: its standard uncertainty, and beside it the correlation of its two errors. */
type Stated = readonly [uncertainty?: number | undefined, correlation?: number | undefined];

/** One standard uncertainty for all readings or one per row, by row; nothing where the argument was left out. */
function byRow(argument: unknown, name: string, height: number, width = 1): (row: number) => Stated {
  if (isOmitted(argument)) return () => [];
  const rows = rowsOf(argument);
  const cells = rows.length === 1 ? rows[0]!.map((cell) => [cell]) : rows;
  const got = Math.max(...cells.map((row) => row.length));
  if (got > width)
    throw width === 1
      ? invalid(name, "oneColumn", { got })
      : invalid(name, "columns", { columns: "uncertainty and correlation", got });
  const forAll = cells.length === 1;
  if (!forAll && cells.length !== height)
    throw invalid(name, "unlikeSize", { count: cells.length, others: height, of: "pressures" });
  return (row) => {
    const at = forAll ? undefined : row;
    const [value, correlation] = cells[(at ?? 1) - 1]!.map((cell) => numberIn(cell, name, at));
    if (value !== undefined) return [value, correlation];
    throw forAll ? missing(name, "notGiven") : missing(name, "noUncertaintyInRow", { row });
  };
}

/** True where the cells are all blank and the technique assumes what is not stated. */
function isAssumed(argument: unknown, technique: Technique): boolean {
  return technique === "weighted with expected exponent" && rowsOf(argument).every((cells) => cells.every(isBlank));
}

/**
 * The readings that count, with their standard uncertainties in Pa and in the unit of flow, and the correlation of the two errors where one is given.
 * A technique that assumes what is not stated takes blank cells as not stated.
 * Errors: a technique that takes none; text; ranges of different size; a reading without one where its column was given (missing).
 */
export function withUncertainties(
  { used, height }: SheetReadings,
  technique: Technique,
  pressureUncertainty: unknown,
  flowUncertainty: unknown,
): readonly LeakageReading[] {
  const isGiven = [pressureUncertainty, flowUncertainty].map((argument) => !isOmitted(argument));
  if (!isGiven.includes(true)) return used;
  if (!takesUncertainties.includes(technique)) {
    const name = isGiven[0] === true ? "pressure_uncertainty" : "flow_uncertainty";
    throw invalid(name, "takesNoUncertainties", { technique });
  }
  const stated = (argument: unknown, name: string, width?: number) =>
    byRow(isAssumed(argument, technique) ? undefined : argument, name, height, width);
  const ofPressure = stated(pressureUncertainty, "pressure_uncertainty");
  const ofFlow = stated(flowUncertainty, "flow_uncertainty", technique === "errors in both" ? 2 : 1);
  return used.map((reading) => {
    const [ofThisPressure] = ofPressure(reading.row);
    const [ofThisFlow, correlation] = ofFlow(reading.row);
    return { ...reading, pressureUncertainty: ofThisPressure, flowUncertainty: ofThisFlow, correlation };
  });
}
