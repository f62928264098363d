import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import type { Outcome } from "./command";
import type { FunctionEntry } from "./entry";
import { exportedNames } from "./exports";
import { sourceFiles } from "./source-files";
import { whereaboutsIn, whereaboutsProblems, type Whereabouts } from "./whereabouts";
import { writeTable } from "./written-table";

const table = {
  name: "table of functions",
  start: "| function | in src/functions | in src/core | source | checked in tests |\n|---|---|---|---|---|\n",
  end: "\n\n",
};

/** What the description says after "Source:"; a function without one is a service of the program. */
function sourceOf({ description = "" }: FunctionEntry): string {
  return /Source: (.*?)\.?$/.exec(description)?.[1]?.replaceAll("|", "\\|") ?? "–";
}

function row({ name, file, core, checks }: Whereabouts, folder: string, entry: FunctionEntry): string {
  const tests = checks.map((check) => check.replace(/^authorities\//, "").replace(/\.test\.ts$/, ""));
  return `| ${name.toUpperCase()} | ${relative(folder, file)} | ${core.join(", ")} | ${sourceOf(entry)} | ${tests.join(", ")} |`;
}

/**
 * Writes the table function → files → source → tests of DEVELOPERS.md from the functions' comments; with `check` it writes nothing and
 * fails where the table is another.
 */
export function developersCommand(folder: string, file: string, check: boolean): Outcome {
  const found = new Map(
    sourceFiles(folder)
      .flatMap(whereaboutsIn)
      .map((one) => [one.name, one]),
  );
  const problems = [...found.values()].flatMap((one) => whereaboutsProblems(one, "."));
  if (problems.length > 0) return { succeeded: false, lines: problems };
  const { functions } = JSON.parse(readFileSync(join(folder, "functions.json"), "utf8")) as {
    functions: FunctionEntry[];
  };
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  const rows = exportedNames(join(folder, "index.ts"))
    .names.map((name) => row(found.get(name)!, folder, byId.get(name.toUpperCase())!))
    .join("\n");
  return writeTable(file, table, rows, check);
}
