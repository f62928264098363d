import { readdirSync } from "node:fs";
import { join } from "node:path";

/** The TypeScript files of a folder and of those in it, always in the same order. */
export function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts") && !file.endsWith(".d.ts"))
    .sort()
    .map((file) => join(folder, file));
}
