/** Temperatures of a test that can hardly be meant, so that °C typed as °F or the reverse is seen. Common practice, no source. */

/** °C, whole degrees: indoors in use or under construction; outdoors on a day on which anyone tests. */
const likely = { indoors: [5, 35], outdoors: [-35, 42] } as const;

/** A formula: a cell of the range holds a temperature that is hardly meant; blank cells and words count for nothing. */
export function hardlyMeant(
  range: string,
  side: keyof typeof likely,
  fromCelsius: (celsius: number) => number = (celsius) => celsius,
): string {
  const [lowest, highest] = likely[side].map((celsius) => Math.round(fromCelsius(celsius)));
  return `COUNTIF(${range},"<${lowest}")+COUNTIF(${range},">${highest}")>0`;
}
