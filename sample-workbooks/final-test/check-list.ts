import type { DirectionPlaces } from "./direction";

/** A condition with a number for each direction. */
export interface Check {
  readonly label: string;
  readonly limit: string;
  /** What was measured, a formula for each direction; anything that is not a number yet shows as blank. */
  readonly measured: (direction: DirectionPlaces) => string;
  readonly digits: number;
  /** The condition on the cells of both directions. */
  readonly met: (cells: string) => string;
  readonly basis: string;
}

const inTable = (symbol: string) => (direction: DirectionPlaces) => direction.wholeTest.value(symbol);
const sizeOf = (symbol: string) => (direction: DirectionPlaces) => `ABS(${direction.wholeTest.value(symbol)})`;
const atLeast = (limit: number) => (cells: string) => `MIN(${cells})>=${limit}`;
const atMost = (limit: number) => (cells: string) => `MAX(${cells})<=${limit}`;

/** Conditions that ISO 9972 sets, as numbers; the marks are those of the sheet Method. */
export const checks: readonly Check[] = [
  {
    label: "Readings used",
    limit: "≥ 5",
    measured: inTable("count"),
    digits: 0,
    met: atLeast(5),
    basis: "ISO 9972 (C)",
  },
  {
    label: "Lowest induced pressure, Pa",
    limit: "≥ 10",
    measured: sizeOf("dp_min"),
    digits: 1,
    met: atLeast(10),
    basis: "ISO 9972 (C)",
  },
  {
    label: "Lowest induced pressure, in baselines",
    limit: "≥ 5",
    measured: ({ wholeTest }) => `ABS(${wholeTest.value("dp_min")})/MAX(0.01,ABS(${wholeTest.value("dp0")}))`,
    digits: 1,
    met: atLeast(5),
    basis: "ISO 9972 (M)",
  },
  {
    label: "Highest induced pressure, Pa",
    limit: "≥ 50",
    measured: sizeOf("dp_max"),
    digits: 1,
    met: atLeast(50),
    basis: "ISO 9972 (C)",
  },
  {
    label: "Largest of the baseline means, Pa",
    limit: "≤ 5",
    measured: ({ conditions }) => conditions.largestBaseline,
    digits: 1,
    met: atMost(5),
    basis: "ISO 9972 (C)",
  },
  {
    label: "Flow exponent n",
    limit: "0.5 to 1",
    measured: inTable("n"),
    digits: 3,
    met: (cells) => `AND(MIN(${cells})>=0.5,MAX(${cells})<=1)`,
    basis: "ISO 9972 (C)",
  },
  {
    label: "Fit of the line, r²",
    limit: "≥ 0.98",
    measured: inTable("r2"),
    digits: 4,
    met: atLeast(0.98),
    basis: "ISO 9972 (C)",
  },
];
