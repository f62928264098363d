/** Where lines go: results to stdout, problems to stderr. Whatever a line holds, a workbook's text too, it is shown as one line and steers no terminal. */
export interface Output {
  print(lines: string | readonly string[]): void;
  /** Prints a JSON document, or whole lines of one. */
  printJson(json: string): void;
  complain(line: string): void;
}

/** Takes a whole text, a line feed at its end. */
type Sink = (text: string) => void;

/** The one place that everything a command says goes through. */
export function createOutput(results: Sink, problems: Sink): Output {
  const endLines = (lines: string | readonly string[]) =>
    (typeof lines === "string" ? [lines] : lines).map((line) => `${withVisibleMarks(line)}\n`).join("");
  return {
    print: (lines) => results(endLines(lines)),
    printJson: (json) => results(`${withJsonEscapes(json)}\n`),
    complain: (line) => problems(endLines(line)),
  };
}

/** The console. A reader that stops early (`| head`) is no fault. */
export function createConsoleOutput(): Output {
  process.stdout.on("error", (problem: NodeJS.ErrnoException) => {
    if (problem.code === "EPIPE") process.exit(process.exitCode);
    process.stderr.write(`the output cannot be written (${problem.code ?? problem.message})\n`);
    process.exit(2);
  });
  process.stderr.on("error", () => undefined);
  return createOutput(
    (text) => process.stdout.write(text),
    (text) => process.stderr.write(text),
  );
}

/**
 * Characters that steer a terminal or turn a line's direction, and those that no one sees: control characters (C0, delete, C1), marks and overrides of
 * direction, line and paragraph separators, zero-width blanks, tags. Joiners are kept, since some languages need them.
 */
const steering = /[\p{Cc}\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\u{e0000}-\u{e007f}]/gu;

/** A text as one line that shows such characters instead of acting on them: "␛" for escape, "␊" for a line feed, "⟨U+202E⟩" for those without a symbol. */
export function withVisibleMarks(text: string): string {
  return text.replace(steering, (character) => markOf(character.codePointAt(0) ?? 0));
}

/** The same for a JSON document, whose strings keep these characters as escapes. */
export function withJsonEscapes(json: string): string {
  return json.replace(steering, (character) => (character === "\n" ? "\n" : escapeCharacter(character)));
}

function markOf(code: number): string {
  if (code < 0x20) return String.fromCodePoint(0x2400 + code);
  if (code === 0x7f) return "␡";
  return `⟨U+${code.toString(16).toUpperCase().padStart(4, "0")}⟩`;
}

function escapeCharacter(character: string): string {
  return Array.from({ length: character.length }, (_, at) => character.charCodeAt(at))
    .map((unit) => `\\u${unit.toString(16).padStart(4, "0")}`)
    .join("");
}

const quietMilliseconds = 2_000;

/** Reports progress on stderr: one self-updating line on a terminal, otherwise an occasional plain line during long work. */
export class Progress {
  private readonly terminal = process.stderr.isTTY;
  private lastLine = Date.now();
  private shown = false;

  /** Plain lines are printed only if `long` or after some seconds without one. */
  step(text: string, long = false): void {
    const line = withVisibleMarks(text);
    if (this.terminal) {
      const width = Math.max(20, process.stderr.columns - 1);
      process.stderr.write(`\r\u001b[K${line.slice(0, width)}`);
      this.shown = true;
      return;
    }
    if (!long && Date.now() - this.lastLine < quietMilliseconds) return;
    this.lastLine = Date.now();
    process.stderr.write(`${line}\n`);
  }

  /** Clears the line before something else is printed. */
  clear(): void {
    if (this.shown) process.stderr.write("\r\u001b[K");
    this.shown = false;
  }
}
