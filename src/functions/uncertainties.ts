import { MethodError, type LeakageReading, type Technique } from "../core/index";
import { isOmitted, numberIn, rowsOf } from "./cells";
import type { SheetReadings } from "./pairs";

const takesUncertainties: readonly Technique[] = ["weighted", "weighted organic correlation", "errors in both"];

/** One standard uncertainty for all readings or one a row, by row; undefined where the argument was left out. */
function byRow(argument: unknown, name: string, height: number): ((row: number) => number) | undefined {
  if (isOmitted(argument)) return undefined;
  const rows = rowsOf(argument);
  const cells = rows.length === 1 ? rows[0]! : rows.map((row) => row[0]);
  if (rows.length > 1 && rows.some((row) => row.length !== 1))
    throw new MethodError("invalid", name, "one column is needed");
  const forAll = cells.length === 1;
  if (!forAll && cells.length !== height)
    throw new MethodError("invalid", name, `${cells.length} rows for ${height} pressures: ranges of unlike size`);
  return (row) => {
    const value = numberIn(cells[forAll ? 0 : row - 1], name, forAll ? undefined : row);
    if (value !== undefined) return value;
    throw new MethodError("missing", name, forAll ? "the cell is blank" : `row ${row} has none`);
  };
}

/**
 * The readings that count, with their standard uncertainties in Pa and in the unit of flow.
 * Errors: a technique that takes none; text; ranges of unlike size; a reading without one where its column was given (missing).
 */
export function withUncertainties(
  { used, height }: SheetReadings,
  technique: Technique,
  pressureUncertainty: unknown,
  flowUncertainty: unknown,
): readonly LeakageReading[] {
  const ofPressure = byRow(pressureUncertainty, "pressure_uncertainty", height);
  const ofFlow = byRow(flowUncertainty, "flow_uncertainty", height);
  if (ofPressure === undefined && ofFlow === undefined) return used;
  if (!takesUncertainties.includes(technique)) {
    const name = ofPressure === undefined ? "flow_uncertainty" : "pressure_uncertainty";
    throw new MethodError("invalid", name, `the technique "${technique}" takes no uncertainties; leave it out`);
  }
  return used.map((reading) => ({
    ...reading,
    pressureUncertainty: ofPressure?.(reading.row),
    flowUncertainty: ofFlow?.(reading.row),
  }));
}
