import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Fault, Outcome } from "./runs/outcome";

/** A fault without what differs from workbook to workbook: two faults alike are one finding. */
export function signatureOf({ way, as }: Outcome, { kind, words }: Fault): string {
  const [, place = ""] = /\n\s+at (\S+)/.exec(words) ?? [];
  const line = (words.split("\n")[0] ?? "").replace(/"[^"]*"|\d+/g, "…").slice(0, 60);
  return `${as === "program" ? "program " : ""}${way.split(" ")[0]}: ${kind}: ${line} ${place}`;
}

/** Writes a finding: the workbook, and beside it what is wrong and how it is made again. */
export function writeFinding(folder: string, name: string, bytes: Uint8Array, lines: readonly string[]): string {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, `${name.replace(/[^\w.-]+/g, "-").slice(0, 80)}.xlsx`);
  writeFileSync(file, bytes);
  writeFileSync(file.replace(/\.xlsx$/, ".txt"), `${lines.join("\n")}\n`);
  return file;
}
