/**
 * A text as a message repeats it: 80 characters are enough to know it again, and a message with one text of a person stays below the 255 characters that
 * Excel surely shows (its limit for the help texts of functions; for errors none is published).
 */
export function shorten(text: string, most = 80): string {
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
}
