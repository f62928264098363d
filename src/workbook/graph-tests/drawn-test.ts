import type { Direction, LeakageFit } from "../../core/index";
import type { GraphLine } from "../graph/data";

/** A result of a test as its sheet shows it, with the flow that it comes from, in the test's unit of flow. */
export interface ComparedResult {
  /** "n50", "qE50", "q75", … */
  readonly quantity: string;
  readonly unit: string;
  readonly value: number;
  readonly flow: number;
  readonly pressure: number;
}

/** One direction of a test that a workbook computes, ready to be drawn. */
export interface DrawnTest {
  /** The cell of the call, with its sheet. */
  readonly cell: string;
  readonly sheetName: string;
  /** Undefined where the sheet does not say it: induced pressures as magnitudes. */
  readonly direction: Direction | undefined;
  /** Undefined where the sheet does not say it: a fit knows no units. */
  readonly flowUnit: string | undefined;
  readonly line: GraphLine;
  /** How the line was fitted. */
  readonly fit: Pick<LeakageFit, "technique" | "prior">;
  readonly confidence: number;
  /** Whether its results are at reference conditions. */
  readonly atReference: boolean;
  readonly results: readonly ComparedResult[];
}

/** A call that gave no result, with the reason that its cell shows. */
export interface UndrawnTest {
  readonly cell: string;
  readonly reason: string;
}
