/**
 * Where an error acts in the model of a test. Each is one independent variable of mean 0; errors of several sources that act in the same place add up.
 * Relative (a fraction): gaugeGain, fanGain, flowGain, openingGain, size. Pa: offset (of every reading, not of the baseline), baseline, baselineBefore,
 * baselineAfter, drift (over the time from the baseline before to the one after), fanZero, barometer. openingExponent: of the opening's m about the pivot of its calibration.
 * expectedExponent: of the exponent that a technique expects of houses. extrapolation: a bend dn/d ln Δp of the true curve, which acts beyond the readings only.
 */
export const effects = [
  "gaugeGain",
  "bothGaugeGains",
  "offset",
  "baseline",
  "baselineBefore",
  "baselineAfter",
  "drift",
  "fanGain",
  "fanZero",
  "flowGain",
  "indoorTemperature",
  "outdoorTemperature",
  "barometer",
  "indoorHumidity",
  "outdoorHumidity",
  "size",
  "extrapolation",
  "expectedExponent",
  "openingGain",
  "openingExponent",
] as const;

export type Effect = (typeof effects)[number];

/** One row of a budget before it is weighed. Correlation exists only because a row acts in several places, with a signed sensitivity in each. */
export interface Source {
  readonly symbol: string;
  readonly effect: Effect;
  /** The opening that it belongs to, counted from 0, where it acts only on readings through that opening. */
  readonly opening?: number;
  readonly law: "normal" | "rectangular";
  /** Standard uncertainty. */
  readonly uncertainty: number;
  /** Infinity where the uncertainty itself is taken as known. */
  readonly degreesOfFreedom: number;
}

/** A normal law, known well unless degrees of freedom are given. */
export function normal(symbol: string, effect: Effect, uncertainty: number, degreesOfFreedom = Infinity): Source {
  return { symbol, effect, law: "normal", uncertainty, degreesOfFreedom };
}

/** A rectangular law of a half-width: u = half-width/√3. Source: JCGM 100:2008, 4.3.7. */
export function rectangular(symbol: string, effect: Effect, halfWidth: number): Source {
  return { symbol, effect, law: "rectangular", uncertainty: halfWidth / Math.sqrt(3), degreesOfFreedom: Infinity };
}

/** The openings of a flow device are lettered, A the first. */
function letterOf(opening: number): string {
  return String.fromCharCode(65 + opening);
}

/** The same source for readings through one opening only. */
export function ofOpening(source: Source, opening: number): Source {
  return { ...source, symbol: `${source.symbol}_${letterOf(opening)}`, opening };
}
