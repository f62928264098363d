/** Cells of the sheet Results that other sheets use. */
export interface ResultPlaces {
  readonly cell: (symbol: string, column: "depressurization" | "pressurization" | "mean") => string;
  readonly deciding: string;
  readonly verdict: string;
  readonly rule: string;
  readonly directions: string;
  readonly state: string;
  readonly findings: string;
}
