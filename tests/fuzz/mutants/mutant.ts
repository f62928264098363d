/** A damaged workbook, as the steps that damage it: leaving steps out gives a smaller one with perhaps the same effect. */
export interface Mutant {
  /** What it is made of and how, for a person. */
  readonly words: string;
  readonly steps: number;
  /** The workbook after the steps whose numbers are kept. */
  build(kept: readonly number[]): Uint8Array;
}

/** The workbook after all steps. */
export function wholeOf(mutant: Mutant): Uint8Array {
  return mutant.build(Array.from({ length: mutant.steps }, (_, step) => step));
}
