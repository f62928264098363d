/** How a simulated test is evaluated. */
export interface Technique {
  readonly name: string;
  /** The word of the setting "technique". */
  readonly technique: string;
  /** The random error of a reading is typed, as it truly is; else the function finds or assumes it. */
  readonly noiseStated: boolean;
}

const technique = (word: string, noiseStated = false): Technique => ({
  name: noiseStated ? `${word}, noise stated` : word,
  technique: word,
  noiseStated,
});

const ordinary = "ordinary";
const withPrior = "weighted with expected exponent";

/** The standards' line, which alone is tried in the scenarios that are about something else than the line. */
export const ordinaryAlone = technique(ordinary);

export const techniques: readonly Technique[] = [
  ordinaryAlone,
  technique(ordinary, true),
  technique("weighted"),
  technique("weighted", true),
  technique("organic correlation"),
  technique("weighted organic correlation", true),
  technique("errors in both", true),
  technique(withPrior),
  technique(withPrior, true),
];

/** Repeated tests, which cost a third budget, are compared by the standards' line and by the one that is meant for repairs. */
export function comparesRepeats({ technique }: Technique): boolean {
  return technique === ordinary || technique === withPrior;
}
