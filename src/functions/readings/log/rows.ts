import { fanStates, type Log } from "../../../core/index";
import { numberIn, oneOf } from "../../cells/cells";
import type { Places } from "./columns";
import { invalid, missing } from "../../cells/rule-codes";

// Looked up once, not for every row: not every host makes that cheap.
const { isFinite, isNaN, NaN: blank } = Number;

const unknownState = 255;

/** Reads words that seldom change: the same cell as in the row before costs one comparison. */
function stateReader(): (cell: unknown, row: number) => number {
  let [latest, index]: [unknown, number] = [undefined, unknownState];
  return (cell, row) => {
    if (cell === latest) return index;
    const word = oneOf(cell, fanStates, "log", row);
    [latest, index] = [cell, word === undefined ? unknownState : fanStates.indexOf(word)];
    return index;
  };
}

/** One number of a row; NaN where the cell is blank. */
function numberAt(cell: unknown, row: number): number {
  return typeof cell === "number" && isFinite(cell) ? cell : (numberIn(cell, "log", row) ?? blank);
}

/** The log as arrays of numbers, blank rows left out: blank cells, or zeros all along a row that is not the first. */
export function logIn(rows: unknown[][], places: Places): Log {
  const count = rows.length;
  const [times, pressures] = [new Float64Array(count), new Float64Array(count)];
  const fan = places.fan < 0 ? undefined : new Float64Array(count);
  const states = places.state < 0 ? undefined : new Uint8Array(count);
  const readState = stateReader();
  let kept = 0;
  let placesOfRows: Int32Array | undefined;
  for (let index = 0; index < count; index++) {
    const cells = rows[index]!;
    const row = index + 1;
    if (cells.length !== places.width) {
      throw invalid("log", "cellsInRow", { count: cells.length, width: places.width }, row);
    }
    const time = numberAt(cells[places.time], row);
    const pressure = numberAt(cells[places.pressure], row);
    const fanValue = fan === undefined ? blank : numberAt(cells[places.fan], row);
    const isBlankRow =
      (isNaN(time) && isNaN(pressure) && isNaN(fanValue)) ||
      (time === 0 && pressure === 0 && !(Math.abs(fanValue) > 0) && kept > 0);
    if (isBlankRow) {
      placesOfRows ??= Int32Array.from({ length: count }, (_, place) => place + 1);
      continue;
    }
    if (isNaN(time)) throw missing("log", "without", { part: "a row", lacks: "time" }, row);
    if (isNaN(pressure)) throw missing("log", "without", { part: "a time", lacks: "pressure" }, row);
    times[kept] = time;
    pressures[kept] = pressure;
    if (fan !== undefined) fan[kept] = fanValue;
    if (states !== undefined) states[kept] = readState(cells[places.state], row);
    if (placesOfRows !== undefined) placesOfRows[kept] = row;
    kept++;
  }
  return {
    times: times.subarray(0, kept),
    pressures: pressures.subarray(0, kept),
    fan: fan?.subarray(0, kept),
    states: states?.subarray(0, kept),
    rows: placesOfRows,
  };
}
