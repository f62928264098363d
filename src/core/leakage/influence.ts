/** How much one reading pulls the line. Absent numbers: without this reading the line is not determined. */
export interface Influence {
  readonly leverage: number;
  readonly cooksDistance?: number;
  readonly exponentWithout?: number;
  readonly flowWithout?: number;
}

/** Residuals smaller than this, relative, are rounding: the readings lie on the line and none of them pulls it. */
export const rounding = 1e-13;
