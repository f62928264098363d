import { readFileSync } from "node:fs";
import { type Outcome, writeTable } from "./command";

const table = {
  name: "table of packages",
  start: "| package | version | licence |\n|---|---|---|\n",
  end: "\n\nTests and the build",
};

interface LockedPackage {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
  readonly os?: readonly string[];
}

/** A row for each package needed by a command; one program's builds for several systems share a row. */
function writePackageRows(lock: string): string {
  const { packages } = JSON.parse(lock) as { packages: Readonly<Record<string, LockedPackage>> };
  const rows = Object.entries(packages).flatMap(([path, { version, license, dev, devOptional, os }]) => {
    if (path === "" || dev === true || devOptional === true) return [];
    const name = path.replace(/^.*node_modules\//, "");
    if (version === undefined || license === undefined) throw new Error(`package-lock.json: ${name} has no licence`);
    const shown = os !== undefined && name.includes("/") ? name.replace(/\/.*/, "/*, one for each system") : name;
    return [`| ${shown} | ${version} | ${license} |`];
  });
  return [...new Set(rows)].join("\n");
}

/** Writes what the commands use into THIRD-PARTY.md; with `check` it writes nothing and fails if the table differs. */
export function runThirdPartyCommand(file: string, lockFile: string, check: boolean): Outcome {
  return writeTable(file, table, writePackageRows(readFileSync(lockFile, "utf8")), check);
}
