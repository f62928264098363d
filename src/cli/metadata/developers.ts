import { existsSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import ts from "typescript";
import { type Outcome, writeTable } from "./command";
import { type FunctionEntry, readMetadata } from "./rules";
import { readExportedNames, listSourceFiles } from "./sources";

const table = {
  name: "table of functions",
  start: "| function | in src/functions | in src/core | source | checked in tests |\n|---|---|---|---|---|\n",
  end: "\n\n",
};

/** What the description says after "Source:"; a function without one is a service of the program. */
function findSource({ description = "" }: FunctionEntry): string {
  return /Source: (.*?)\.?$/.exec(description)?.[1]?.replaceAll("|", "\\|") ?? "–";
}

function writeRow({ name, file, core, checks }: Whereabouts, folder: string, entry: FunctionEntry): string {
  const tests = checks.map((check) => check.replace(/^authorities\//, "").replace(/\.test\.ts$/, ""));
  return `| ${name.toUpperCase()} | ${relative(folder, file)} | ${core.join(", ")} | ${findSource(entry)} | ${tests.join(", ")} |`;
}

/**
 * Writes the table function → files → source → tests of DEVELOPERS.md from the functions' comments; with `check` it writes nothing and
 * fails if the table differs.
 */
export function runDevelopersCommand(folder: string, file: string, check: boolean): Outcome {
  const found = new Map(
    listSourceFiles(folder)
      .flatMap(readWhereabouts)
      .map((one) => [one.name, one]),
  );
  const problems = [...found.values()].flatMap((one) => checkWhereabouts(one, "."));
  if (problems.length > 0) return { succeeded: false, lines: problems };
  const { functions } = readMetadata(readFileSync(join(folder, "functions.json"), "utf8"));
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  const rows = readExportedNames(join(folder, "index.ts"))
    .names.map((name) => writeRow(found.get(name)!, folder, byId.get(name.toUpperCase())!))
    .join("\n");
  return writeTable(file, table, rows, check);
}

/** Where a function is implemented and checked, from its comment: `@core` files of the method, `@check` files of tests. */
interface Whereabouts {
  readonly name: string;
  readonly file: string;
  readonly core: readonly string[];
  readonly checks: readonly string[];
}

/** Reads the tags of every exported function that carries `@customfunction`. */
export function readWhereabouts(file: string): Whereabouts[] {
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
  return source.statements.flatMap((statement): Whereabouts[] => {
    if (!ts.isFunctionDeclaration(statement) || !statement.name) return [];
    const tags = ts.getJSDocTags(statement);
    if (!tags.some(({ tagName }) => tagName.text === "customfunction")) return [];
    const listTagged = (wanted: string) =>
      tags
        .filter(({ tagName }) => tagName.text === wanted)
        .flatMap(({ comment }) => (ts.getTextOfJSDocComment(comment) ?? "").trim().split(/\s+/));
    return [{ name: statement.name.text, file, core: listTagged("core"), checks: listTagged("check") }];
  });
}

/** Problems with one function's tags: no tags, a missing file, a check that calls neither the function nor its step. */
export function checkWhereabouts({ name, core, checks }: Whereabouts, root: string): string[] {
  const problems: string[] = [];
  if (core.length === 0) problems.push(`${name}: its comment names no @core file`);
  if (checks.length === 0) problems.push(`${name}: its comment names no @check file`);
  const missing = [...core.map((file) => join("src/core", file)), ...checks.map((file) => join("tests", file))].filter(
    (file) => !existsSync(join(root, file)),
  );
  if (missing.length > 0 || problems.length > 0)
    return [...problems, ...missing.map((file) => `${name}: ${file} is not there`)];
  const names = [name, name.toUpperCase(), ...core.flatMap((file) => listExports(join(root, "src/core", file)))];
  const called = new RegExp(`\\b(?:${names.join("|")})\\b`);
  return checks
    .filter((file) => !called.test(readFileSync(join(root, "tests", file), "utf8")))
    .map((file) => `${name}: ${file} calls neither it nor its step of the method`);
}

function listExports(file: string): string[] {
  return [...readFileSync(file, "utf8").matchAll(/^export (?:function|const|class) (\w+)/gm)].map(
    ([, name = ""]) => name,
  );
}
