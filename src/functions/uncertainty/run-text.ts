import {
  MethodError,
  prepare,
  type ModelReading,
  type ModelTest,
  type SimulatedDirection,
  type Source,
} from "../../core/index";

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
    throw new MethodError("invalid", "other_direction", 'its row "mc_readings" is not as UNCERTAINTYBUDGET wrote it');
  }
}
