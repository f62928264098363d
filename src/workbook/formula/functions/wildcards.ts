import { refuse } from "../values/refusal";
import { spend } from "../work-limits";

/** True where a pattern holds * or ? that is not escaped by ~. */
export function hasWildcards(pattern: string): boolean {
  return /(^|[^~])(~~)*[*?]/.test(pattern);
}

/** A pattern without wildcards, its escapes resolved: "a~*" means "a*"; a ~ before any other letter is dropped. */
export const resolveEscapes = (pattern: string): string => pattern.replace(/~(.?)/gs, "$1");

/** Refuses a ~ that escapes nothing: SEARCH drops it, of criteria and lookups it is not known. */
export function refuseIdleTilde(pattern: string): void {
  if (/~/.test(pattern.replace(/~[~*?]/g, ""))) refuse("a ~ that escapes no wildcard");
}

/**
 * A test of whole texts against Excel's wildcards, regardless of case: * any characters, ? one, ~ escapes. Matched by hand,
 * greedily with one way back, because a regular expression made from a pattern with many stars can take for ever.
 */
export function createWildcardTest(pattern: string): (text: string) => boolean {
  const pieces = splitIntoPieces(pattern.toLowerCase());
  return (text) => matchesPieces(pieces, text.toLowerCase());
}

interface Piece {
  readonly kind: "any" | "one" | "letter";
  readonly letter?: string;
}

function splitIntoPieces(pattern: string): Piece[] {
  const pieces: Piece[] = [];
  for (let place = 0; place < pattern.length; place += 1) {
    const letter = pattern[place] as string;
    const next = pattern[place + 1];
    if (letter === "~") {
      if (next !== undefined) pieces.push({ kind: "letter", letter: next });
      place += 1;
    } else if (letter === "*") pieces.push({ kind: "any" });
    else if (letter === "?") pieces.push({ kind: "one" });
    else pieces.push({ kind: "letter", letter });
  }
  return pieces;
}

function matchesPieces(pieces: readonly Piece[], text: string): boolean {
  let piece = 0;
  let star = -1;
  let resume = 0;
  for (let place = 0; place < text.length;) {
    spend(1);
    const current = pieces[piece];
    if (current?.kind === "any") {
      star = piece;
      resume = place;
      piece += 1;
    } else if (current && (current.kind === "one" || (current.kind === "letter" && current.letter === text[place]))) {
      piece += 1;
      place += 1;
    } else if (star >= 0) {
      piece = star + 1;
      resume += 1;
      place = resume;
    } else return false;
  }
  while (pieces[piece]?.kind === "any") piece += 1;
  return piece === pieces.length;
}

/**
 * The first place in a text, from one on, at which a pattern matches, or −1. The pieces between the stars are looked for one after another: where
 * the first one is found and a later one is not behind it, there is none behind any later place either.
 */
export function findWildcard(pattern: string, text: string, from: number): number {
  const runs: Piece[][] = [[]];
  for (const piece of splitIntoPieces(pattern.toLowerCase())) {
    if (piece.kind === "any") runs.push([]);
    else runs.at(-1)?.push(piece);
  }
  const lower = text.toLowerCase();
  let first = -1;
  let next = from;
  for (const run of runs) {
    const place = placeOfRun(run, lower, next);
    if (place < 0) return -1;
    if (first < 0) first = place;
    next = place + run.length;
  }
  return first;
}

function placeOfRun(run: readonly Piece[], text: string, from: number): number {
  for (let place = from; place + run.length <= text.length; place += 1) {
    let at = 0;
    while (at < run.length && (run[at]?.kind === "one" || run[at]?.letter === text[place + at])) at += 1;
    spend(1 + at);
    if (at === run.length) return place;
  }
  return -1;
}
