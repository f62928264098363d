import { readdirSync, readFileSync } from "node:fs";
import type { Way } from "../runs/commands";
import type { Seed } from "../seeds";
import { made } from "./made";

const found = new URL("./found/", import.meta.url);

/** The names of all workbooks of the corpus: those that a script makes, and the files that mutants have left. */
export function corpusNames(): string[] {
  const files = readdirSync(found).filter((name) => name.endsWith(".xlsx"));
  return [...Object.keys(made), ...files];
}

export function corpusWorkbook(name: string): Seed {
  const make = made[name];
  return { name, bytes: make ? make() : new Uint8Array(readFileSync(new URL(name, found))) };
}

/**
 * Workbooks that keep the commands busy for some four of the five minutes that the whole corpus takes: `npm test` tries each by one of its ways, which between
 * them are all the main ones; `npm run fuzz`, and so `.ci/run`, by every one.
 */
export const large: Readonly<Record<string, Way>> = {
  "reduce-nested": "recalc --json",
  "let-doubling-hstack": "verify --html",
  "array-ref-200000-x-100": "graph",
  "spill-200000-x-100": "graph",
  "running-sum-20000": "recalc --out",
  "countif-20000": "verify --html",
  "mode-2000000": "trace",
  "cycle-indirect-3000": "trace",
  "formulas-130000-colour-below": "issue-copy",
  "format-50000-brackets": "recalc --html",
  "text-32767-in-20000-cells": "recalc --html",
  "comment-of-100MB-dashes": "recalc --out",
  "cdata-of-100MB-brackets": "verify --html",
  "pi-of-100MB": "issue-copy",
  "number-of-100MB": "graph",
  "one-part-for-100000-sheets": "trace",
};
