const pairsOf = (word: string): Set<string> =>
  new Set(Array.from({ length: word.length - 1 }, (_, at) => word.slice(at, at + 2)));

/** Up to three of the known words that share the most pairs of letters with a word, in whatever order its parts stand; none where none is like it. */
export function nearest(word: string, known: readonly string[]): string[] {
  const pairs = pairsOf(word);
  const scored = known.map((other) => {
    const others = pairsOf(other);
    const shared = [...others].filter((pair) => pairs.has(pair)).length;
    return { other, score: (2 * shared) / (pairs.size + others.size) };
  });
  const best = Math.max(...scored.map(({ score }) => score));
  return scored
    .filter(({ score }) => score > 0.25 && score > 0.75 * best)
    .sort((a, b) => b.score - a.score)
    .slice(0, 3)
    .map(({ other }) => other);
}
