import { authorityText } from "./files";

/** The data lines of NIST's file as published: y first, then x, from line 61 on. */
export function norrisData(): { x: number[]; y: number[] } {
  const rows = authorityText("nist-norris/Norris.dat")
    .split("\n")
    .slice(60)
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((cells) => cells.length === 2);
  return { y: rows.map(([first]) => first ?? NaN), x: rows.map(([, second]) => second ?? NaN) };
}
