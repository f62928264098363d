/** Cubic metres an hour in one cubic foot a minute: 0.3048³ · 60. */
const cfm = 0.3048 ** 3 * 60;

interface UnitRatio {
  readonly ratio: number;
  readonly words: string;
}

/** Factors by which a flow is off when its unit is mistaken; the words say what was typed where. */
const ratios: readonly UnitRatio[] = [
  { ratio: 1 / cfm, words: "cfm typed where m³/h belongs" },
  { ratio: cfm, words: "m³/h typed where cfm belongs" },
  { ratio: 1 / 3.6, words: "L/s typed where m³/h belongs" },
  { ratio: 3.6, words: "m³/h typed where L/s belongs" },
  { ratio: cfm / 3.6, words: "L/s typed where cfm belongs" },
  { ratio: 3.6 / cfm, words: "cfm typed where L/s belongs" },
  { ratio: 1 / 3600, words: "m³/s typed where m³/h belongs" },
  { ratio: 1 / 60, words: "m³/min typed where m³/h belongs" },
];

/** The mistaken unit that explains a ratio of typed to true, within a relative tolerance. */
export function unitBehind(ratio: number, tolerance: number): UnitRatio | undefined {
  return ratios.find((known) => Math.abs(ratio / known.ratio - 1) <= tolerance);
}
