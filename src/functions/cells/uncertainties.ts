import { MethodError, type LeakageReading, type Technique } from "../../core/index";
import { isBlank, isOmitted, numberIn, rowsOf } from "./cells";
import type { SheetReadings } from "./pairs";

const takesUncertainties: readonly Technique[] = [
  "weighted",
  "weighted organic correlation",
  "errors in both",
  "weighted with expected exponent",
];

/** What an argument states of a reading: its standard uncertainty, and beside it the correlation of its two errors. */
type Stated = readonly [uncertainty?: number | undefined, correlation?: number | undefined];

/** One standard uncertainty for all readings or one a row, by row; nothing where the argument was left out. */
function byRow(argument: unknown, name: string, height: number, width = 1): (row: number) => Stated {
  if (isOmitted(argument)) return () => [];
  const rows = rowsOf(argument);
  const cells = rows.length === 1 ? rows[0]!.map((cell) => [cell]) : rows;
  if (cells.some((row) => row.length > width)) throw new MethodError("invalid", name, "one column is needed");
  const forAll = cells.length === 1;
  if (!forAll && cells.length !== height)
    throw new MethodError("invalid", name, `${cells.length} rows for ${height} pressures: ranges of unlike size`);
  return (row) => {
    const at = forAll ? undefined : row;
    const [value, correlation] = cells[(at ?? 1) - 1]!.map((cell) => numberIn(cell, name, at));
    if (value !== undefined) return [value, correlation];
    throw new MethodError("missing", name, forAll ? "the cell is blank" : `row ${row} has none`);
  };
}

/** True where the cells are all blank and the technique assumes what is not stated. */
function isAssumed(argument: unknown, technique: Technique): boolean {
  return technique === "weighted with expected exponent" && rowsOf(argument).every((cells) => cells.every(isBlank));
}

/**
 * The readings that count, with their standard uncertainties in Pa and in the unit of flow, and the correlation of the two errors where one is given.
 * A technique that assumes what is not stated takes blank cells as not stated.
 * Errors: a technique that takes none; text; ranges of unlike size; a reading without one where its column was given (missing).
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
    throw new MethodError("invalid", name, `the technique "${technique}" takes no uncertainties; leave it out`);
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
