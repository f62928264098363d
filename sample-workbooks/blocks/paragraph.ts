/** Row height in points that a wrapped text needs; the width is that of its columns, in characters. Cautious: rather a little air than a cut-off line. */
export function heightFor(text: string, width: number, size = 9): number {
  const perLine = Math.max(8, (width * 7 * 0.75) / (size * 0.47));
  const lines = text.split("\n").reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / perLine)), 0);
  return Math.round(lines * size * 1.25 + 6);
}
