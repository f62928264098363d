import type { DirectionPlaces } from "./direction";

/** A condition with a number for each direction. */
export interface Check {
  readonly label: string;
  /** A text, or a formula where the limit follows from other cells. */
  readonly limit: string | { readonly formula: string };
  /** What was measured, a formula for each direction; anything that is not a number yet shows as blank. */
  readonly measured: (direction: DirectionPlaces) => string;
  readonly digits: number;
  /** The condition on the cells of both directions. */
  readonly met: (cells: string) => string;
  readonly basis: string;
}

const inTable = (symbol: string) => (direction: DirectionPlaces) => direction.wholeTest.value(symbol);
const sizeOf = (symbol: string) => (direction: DirectionPlaces) => `ABS(${direction.wholeTest.value(symbol)})`;
const atLeast = (limit: number | string) => (cells: string) => `MIN(${cells})>=${limit}`;
const atMost = (limit: number | string) => (cells: string) => `MAX(${cells})<=${limit}`;

/** A result at a pressure above all readings would be a guess, so that the readings must reach the criterion's pressure too. */
const highest = "MAX(50,IFERROR(TargetPressure+0,50))";

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
    label: "The same, in largest baseline means (+, −)",
    limit: "≥ 5",
    measured: ({ wholeTest, conditions }) =>
      `ABS(${wholeTest.value("dp_min")})/MAX(0.01,${conditions.largestBaseline})`,
    digits: 1,
    met: atLeast(5),
    basis: "ISO 9972 (M)",
  },
  {
    label: "Highest induced pressure, Pa",
    limit: { formula: `"≥ "&${highest}` },
    measured: sizeOf("dp_max"),
    digits: 1,
    met: atLeast(highest),
    basis: "ISO 9972 (C); criterion",
  },
  {
    label: "Largest of the baseline means (+, −), Pa",
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

/** What the standard or good practice advises; a verdict does not depend on it, but the cover tells of it. */
export const advice: readonly Check[] = [
  {
    label: "Baseline readings, the fewer of before and after",
    limit: "≥ 10",
    measured: ({ conditions }) => conditions.fewestBaselines,
    digits: 0,
    met: atLeast(10),
    basis: "ISO 9972 (M), advisory",
  },
  {
    label: "Height × temperature difference, m·K",
    limit: "≤ 250",
    measured: ({ conditions }) => `IF(COUNT(HouseHeight)=0,"",HouseHeight*ABS(${conditions.temperatureDifference}))`,
    digits: 0,
    met: atMost(250),
    basis: "ISO 9972 (M), advisory",
  },
  {
    label: "Wind near the ground, m/s",
    limit: "≤ 3",
    measured: ({ conditions }) => conditions.wind,
    digits: 1,
    met: atMost(3),
    basis: "ISO 9972 (C), advisory",
  },
  {
    label: "Criterion’s pressure within the readings: lowest, Pa",
    limit: { formula: `IFERROR("≤ "&TargetPressure,"no criterion")` },
    measured: sizeOf("dp_min"),
    digits: 1,
    met: atMost("TargetPressure"),
    basis: "practice, advisory",
  },
];
