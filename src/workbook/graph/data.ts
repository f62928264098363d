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

/** One fitted line with its readings. */
export interface GraphLine {
  /** Its display name: "depressurization", or the name of a run. */
  readonly name: string;
  /** Its style: the same for the same direction on every graph. */
  readonly look: "depressurization" | "pressurization" | "other";
  readonly used: readonly GraphPoint[];
  /** Readings kept but excluded from the fit. */
  readonly excluded: readonly GraphPoint[];
  readonly exponent: GraphLimits;
  /** C at the conditions of the test, in the graph's unit of flow. */
  readonly coefficient: number;
  /** r² of the logarithms. */
  readonly determination: number;
  /** Flow at 50 Pa with its limits, as reported. */
  readonly q50: GraphLimits;
  /** The line and its confidence band at a pressure, at the conditions of the test. */
  flowAt(pressure: number): GraphLimits;
}

/** A limit as a flow: the maximum leakage at one pressure. */
export interface GraphTarget {
  readonly pressure: number;
  readonly flow: number;
  /** Its origin, such as "n50 0.6 1/h"; "" if there is nothing to say. */
  readonly words: string;
}

/** What an air leakage graph shows. */
export interface GraphData {
  readonly title: string;
  readonly subtitle: string;
  /** "m³/h", "L/s", "cfm", or the sheet's unit of flow. */
  readonly flowUnit: string;
  readonly lines: readonly GraphLine[];
  readonly targets: readonly GraphTarget[];
  /** Two-sided confidence of bands and limits, a fraction. */
  readonly confidence: number;
  /** A sentence below the table, such as the conditions of q50. */
  readonly note: string;
}
