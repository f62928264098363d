/**
 * Characters that steer a terminal or turn a line's direction, and those that no one sees: control characters (C0, delete, C1), marks and overrides of
 * direction, line and paragraph separators, zero-width blanks, tags. Joiners stay, since words of some languages need them.
 */
const steering = /[\p{Cc}\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\u{e0000}-\u{e007f}]/gu;

/** A text as one line that shows such characters instead of obeying them: "␛" for escape, "␊" for a line feed, "⟨U+202E⟩" for those without a sign. */
export function withVisibleMarks(text: string): string {
  return text.replace(steering, (character) => markOf(character.codePointAt(0) ?? 0));
}

/** The same for a JSON document, whose strings keep their characters: written as escapes. */
export function withJsonEscapes(json: string): string {
  return json.replace(steering, (character) => (character === "\n" ? "\n" : escapesOf(character)));
}

function markOf(code: number): string {
  if (code < 0x20) return String.fromCodePoint(0x2400 + code);
  if (code === 0x7f) return "␡";
  return `⟨U+${code.toString(16).toUpperCase().padStart(4, "0")}⟩`;
}

function escapesOf(character: string): string {
  return Array.from({ length: character.length }, (_, at) => character.charCodeAt(at))
    .map((unit) => `\\u${unit.toString(16).padStart(4, "0")}`)
    .join("");
}
