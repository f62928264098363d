import { existsSync } from "node:fs";
import { join, resolve } from "node:path";

/**
 * A program that checks files against published schemas, which are not the project's to pass on: `check-workbook FILE` prints
 * "FILE: checked" or faults. Undefined where the folder that SCHEMA_TOOLS names (tests/run.sh) does not hold it.
 */
export function schemaTool(name: "check-manifest" | "check-workbook"): string | undefined {
  const path = join(process.env["SCHEMA_TOOLS"] ?? "", name);
  return existsSync(path) ? resolve(path) : undefined;
}
