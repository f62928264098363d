/** One reading on the graph: induced pressure as a magnitude, Pa, and flow through the envelope, in the graph's unit. */
export interface GraphPoint {
  readonly pressure: number;
  readonly flow: number;
}

/** A value with its confidence limits. */
export interface GraphLimits {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

/** One fitted line with the readings that it comes from. */
export interface GraphLine {
  /** What a person calls it: "depressurization", or the name of a run. */
  readonly name: string;
  /** Its look: the same for the same direction on every graph. */
  readonly look: "depressurization" | "pressurization" | "other";
  readonly used: readonly GraphPoint[];
  /** Readings that are kept but take no part in the fit. */
  readonly excluded: readonly GraphPoint[];
  readonly exponent: GraphLimits;
  /** C at the conditions of the test, in the graph's unit of flow. */
  readonly coefficient: number;
  /** r² of the logarithms. */
  readonly determination: number;
  /** Flow at 50 Pa with its limits, as it is reported. */
  readonly q50: GraphLimits;
  /** The line and its confidence band at a pressure, at the conditions of the test. */
  flowAt(pressure: number): GraphLimits;
}

/** A limit as a flow: what the house may leak at one pressure. */
export interface GraphTarget {
  readonly pressure: number;
  readonly flow: number;
  /** What it comes from, such as "n50 0.6 1/h"; "" where nothing is to be said. */
  readonly words: string;
}

/** What an air leakage graph shows. */
export interface GraphData {
  readonly title: string;
  readonly subtitle: string;
  /** "m³/h", "L/s", "cfm", or what a sheet's flows are in. */
  readonly flowUnit: string;
  readonly lines: readonly GraphLine[];
  readonly targets: readonly GraphTarget[];
  /** Two-sided confidence of bands and limits, a fraction. */
  readonly confidence: number;
  /** A sentence below the table, such as the conditions that q50 is at. */
  readonly note: string;
}
