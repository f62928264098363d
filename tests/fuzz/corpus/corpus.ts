import { readdirSync, readFileSync } from "node:fs";
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
