import { signOf, type Direction } from "../direction";
import { ensure, type Term } from "../errors";

/** How a tester's pressures are signed. "magnitude": the readings are |Δp|, the baseline keeps its sign (indoors minus outdoors). */
export const pressureSigns = ["indoors minus outdoors", "outdoors minus indoors", "magnitude"] as const;

export type PressureSign = (typeof pressureSigns)[number];

/** A reading with its row, so that an error can name it. */
export interface RowReading {
  readonly row: number;
  readonly value: number;
}

/**
 * Turns a signed pressure to indoors minus outdoors.
 * Example: toIndoorsMinusOutdoors(51.5, "outdoors minus indoors") → -51.5
 */
export function toIndoorsMinusOutdoors(pressure: number, sign: PressureSign): number {
  return sign === "outdoors minus indoors" ? -pressure : pressure;
}

function requireOneSign(readings: readonly RowReading[], term: Term): void {
  const first = readings[0];
  for (const { row, value } of readings) {
    ensure(
      first === undefined || value * first.value > 0,
      term,
      "otherSign",
      { pressure: value, first: first?.row ?? 1 },
      row,
    );
  }
}

function requireDirection(reading: RowReading, direction: Direction, term: Term): void {
  ensure(
    reading.value * signOf(direction) > 0,
    term,
    "otherDirection",
    { pressure: reading.value, direction },
    reading.row,
  );
}

/**
 * Induced pressure differences, Pa, signed, indoors minus outdoors: Δp = Δp_m − Δp_0.
 * Readings of mixed signs, readings that contradict the direction, and readings that the baseline turns round are errors that name the row:
 * unsigned readings with a signed baseline spoil a result without any statistic noticing.
 * @param baseline Zero-flow pressure, Pa, of all readings or of each, in the same sign convention (with "magnitude": indoors minus outdoors).
 * @param direction Required with "magnitude"; checked where given.
 * Source: ISO 9972:2015, induced pressure difference (from memory).
 * Example: inducedPressures([{ row: 1, value: -52 }, { row: 2, value: -31 }], -2, "indoors minus outdoors") → [{ row: 1, value: -50 }, { row: 2, value: -29 }]
 */
export function inducedPressures(
  readings: readonly RowReading[],
  baseline: number | readonly number[],
  sign: PressureSign,
  direction?: Direction,
  term: Term = "readings",
): RowReading[] {
  let signed: RowReading[];
  if (sign === "magnitude") {
    ensure(direction !== undefined, "direction", "notGiven");
    for (const { row, value } of readings) {
      ensure(value > 0, term, "aboveZero", { got: value }, row);
    }
    const side = signOf(direction);
    signed = readings.map(({ row, value }) => ({ row, value: side * value }));
  } else {
    requireOneSign(readings, term);
    signed = readings.map(({ row, value }) => ({ row, value: toIndoorsMinusOutdoors(value, sign) }));
    if (direction !== undefined) for (const reading of signed) requireDirection(reading, direction, term);
  }
  return signed.map(({ row, value }, index) => {
    const zero = toIndoorsMinusOutdoors(typeof baseline === "number" ? baseline : baseline[index]!, sign);
    const induced = value - zero;
    ensure(induced * value > 0, term, "belowBaseline", { pressure: value, baseline: zero }, row);
    return { row, value: induced };
  });
}
