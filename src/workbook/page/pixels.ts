/** Letters of the standard font are taken as seven pixels wide, columns with five pixels of air. */
export function pixelsOf(characters: number): number {
  return 7 * characters + 5;
}
