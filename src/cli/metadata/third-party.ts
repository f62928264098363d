import { readFileSync } from "node:fs";
import * as z from "zod";
import { type Outcome, writeTable } from "./command";

const table = {
  name: "table of packages",
  start: "| package | version | licence |\n|---|---|---|\n",
  end: "\n\nTests and the build",
};

/** package-lock.json, as far as it is read here. */
const lockFile = z.object({
  packages: z.record(
    z.string(),
    z.object({
      version: z.string().optional(),
      license: z.string().optional(),
      dev: z.boolean().optional(),
      devOptional: z.boolean().optional(),
      os: z.array(z.string()).optional(),
    }),
  ),
});

/** A row for each package needed by a command; one program's builds for several systems share a row. */
function writePackageRows(lock: string): string {
  const { packages } = lockFile.parse(JSON.parse(lock));
  const rows = Object.entries(packages).flatMap(([path, { version, license, dev, devOptional, os }]) => {
    if (path === "" || dev === true || devOptional === true) return [];
    const name = path.replace(/^.*node_modules\//, "");
    if (version === undefined || license === undefined) throw new Error(`package-lock.json: ${name} has no licence`);
    const shown = os !== undefined && name.includes("/") ? name.replace(/\/.*/, "/*, one for each system") : name;
    return [`| ${shown} | ${version} | ${license} |`];
  });
  return [...new Set(rows)].join("\n");
}

/** Writes what the commands use into THIRD-PARTY.md; with `check` it writes nothing and fails where the table is another. */
export function runThirdPartyCommand(file: string, lock: string, check: boolean): Outcome {
  return writeTable(file, table, writePackageRows(readFileSync(lock, "utf8")), check);
}
