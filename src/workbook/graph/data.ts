import type { LeakageCurve } from "../book/tests/computed-runs";

/** One fitted line with its readings, in the graph's unit of flow. */
export interface GraphLine extends LeakageCurve {
  /** Its display name: "depressurization", or the name of a run. */
  readonly name: string;
  /** Its style: the same for the same direction on every graph. */
  readonly look: "depressurization" | "pressurization" | "other";
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
