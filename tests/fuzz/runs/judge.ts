import type { Fault } from "./outcome";

/** Control characters but for tab and line feed, and the signs that turn or part the line. */
const control = /(?![\t\n])\p{Cc}|\p{Bidi_Control}|[\u2028\u2029]/u;

const trace = /^\s+at (?:.*\()?(?:node:|file:|\/|[A-Za-z]:\\|<anonymous>)/m;

/** The engine's own words for a fault of ours, whatever sentence is around them. */
const engine =
  /Maximum call stack size|Invalid (?:string|array|typed array) length|(?:Map|Set) maximum size|is not (?:a function|iterable|defined|a constructor)\b|Cannot (?:read|set|convert|destructure) |heap out of memory|\b(?:Type|Range|Reference|Syntax|Internal)Error\b|ERR_[A-Z_]+/;

/** A line repeats at most 80 characters of each of a few values. */
const longestLine = 2_000;

/** The text about a place, every sign that a terminal might obey as its number. */
export function around(text: string, index: number): string {
  const piece = text.slice(Math.max(0, index - 40), index + 60);
  return piece.replace(/[^ -~]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** What is wrong with what a person reads: the text of stdout and of stderr. */
export function faultsOfText(out: string, err: string): Fault[] {
  const faults: Fault[] = [];
  for (const [stream, text] of [
    ["stdout", out],
    ["stderr", err],
  ] as const) {
    const sign = control.exec(text);
    if (sign)
      faults.push({
        kind: "control character",
        words: `U+${sign[0].charCodeAt(0).toString(16).padStart(4, "0")} on ${stream}: ${around(text, sign.index)}`,
      });
    const stack = trace.exec(text);
    if (stack) faults.push({ kind: "stack trace", words: `on ${stream}: ${around(text, stack.index)}` });
    const words = engine.exec(text);
    if (words && !stack) faults.push({ kind: "caught crash", words: `on ${stream}: ${around(text, words.index)}` });
  }
  const long = err.split("\n").find((line) => line.length > longestLine);
  if (long !== undefined)
    faults.push({ kind: "long message", words: `a line of ${long.length} characters: ${long.slice(0, 80)}` });
  return faults;
}

/** The codes that --help lists for what a workbook brings about; a crash has a different one. */
export function faultsOfCode(code: number | null, signal: string | null): Fault[] {
  if (signal !== null) return [{ kind: "crash", words: `ended by ${signal}` }];
  return code !== null && code >= 0 && code <= 2 ? [] : [{ kind: "exit code", words: `exit code ${code}` }];
}
