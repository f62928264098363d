/** Microsoft publishes no limit for what Excel shows of a description while a function is typed; 255 characters is that of other add-in functions. */
export const longestShown = 255;

/** The sentences of a description. A full stop ends one only before a capital, a Greek letter or a quotation, so that "ch. 16" and "0.65" end nothing. */
export function sentencesOf(description: string): string[] {
  return description.split(/(?<=\.)\s+(?=["“A-ZΑ-Ωα-ω])/);
}

/** Parts for the page and for traces, which would only be in the way while a formula is typed. */
const forThePage = /^(Equation|Source|Columns): /;

/** What Excel shows while a function is typed: the first sentences of its description, as many as fit. */
export function shownDescription(description: string): string {
  const [first = "", ...others] = sentencesOf(description);
  let shown = first;
  for (const sentence of others) {
    if (forThePage.test(sentence) || shown.length + 1 + sentence.length > longestShown) break;
    shown += ` ${sentence}`;
  }
  return shown;
}
