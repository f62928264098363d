/**
 * A text as a message repeats it: 80 characters are enough to know it again, and a message with one text of a person stays below the 255 characters that
 * Excel surely shows (its limit for the help texts of functions; for errors none is published).
 */
export function shorten(text: string, most = 80): string {
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
}

/** Up to three of the known words that share the most pairs of letters with a word, in any order of its parts; none if none is similar. */
export function nearest(word: string, known: readonly string[]): string[] {
  const score = (other: string) =>
    [...other].filter((_, at) => word.includes(other.slice(at, at + 2))).length / (other.length + word.length);
  const best = Math.max(...known.map(score));
  if (best < 0.15) return [];
  return known
    .filter((other) => score(other) > 0.75 * best)
    .sort((a, b) => score(b) - score(a))
    .slice(0, 3);
}
