/** Cells of the sheet Results that other sheets use. */
export interface ResultPlaces {
  readonly cell: (symbol: string, column: "depressurization" | "pressurization" | "mean") => string;
  readonly deciding: string;
  /** Of the result that decides: expanded uncertainty, limits, and the probability that the true value meets the limit. */
  readonly uncertainty: string;
  readonly lower: string;
  readonly upper: string;
  readonly probability: string;
  readonly verdict: string;
  readonly rule: string;
  readonly directions: string;
  readonly state: string;
  readonly findings: string;
}
