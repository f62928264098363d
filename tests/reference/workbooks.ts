import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** The folder that `npm run test:reference` was given. */
export const folder = process.env["REFERENCE_WORKBOOKS"] ?? "";

/** The workbooks of a folder: paths within it, with "/" on every system, and bytes. */
export function workbooksIn(place: string): [path: string, bytes: Uint8Array][] {
  const names = readdirSync(place, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".xlsx"));
  return names.sort().map((name) => [name.replaceAll("\\", "/"), new Uint8Array(readFileSync(join(place, name)))]);
}
