// The method and its quick tests as one script that can be evaluated afresh for each mutant, in a few milliseconds.
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath, pathToFileURL } from "node:url";
import { Script } from "node:vm";
import { build } from "esbuild";
import { expect } from "vitest";

const vitest = fileURLToPath(new URL("vitest.mjs", import.meta.url));

/** Near tests first: a mutant is done with its first failing test. Those that draw or solve much come last. */
const folders = ["core", "functions", "authorities"];
/** What draws so many cases that it would take longer than all the others together. */
const slow = /(authorities|functions)\/random-|uncertainty-monte-carlo|authorities\/laws\/whole-tests/;
/** What loads modules anew, or needs more of the project than the method and its functions. */
const beyond = /result-card|docstring-examples/;
const late = /uncertainty|student-t|authorities\/(stations|laws|unit-systems)|steps-against/;

function testFiles(root) {
  return folders
    .flatMap((folder) =>
      readdirSync(`${root}/tests/${folder}`, { recursive: true }).map((name) => `tests/${folder}/${name}`),
    )
    .filter((file) => file.endsWith(".test.ts") && !slow.test(file) && !beyond.test(file))
    .sort((one, other) => Number(late.test(one)) - Number(late.test(other)));
}

/** The tests' vitest is ours, and a file knows its own place. */
const forThisRun = {
  name: "for this run",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^vitest$/ }, () => ({ path: vitest }));
    onLoad({ filter: /tests\/.*\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replaceAll("import.meta.url", JSON.stringify(pathToFileURL(path).href)),
      loader: "ts",
    }));
  },
};

/** Joins the sources; what it gives, gives at each call another instance of all modules, none of them evaluated yet. */
export async function joined() {
  // A worker of Stryker works in the copy of the project that holds the mutants.
  const root = process.cwd();
  const entries = testFiles(root).map((file) => `${JSON.stringify(file)}: () => require("./${file}")`);
  const { outputFiles } = await build({
    stdin: {
      contents: `export { listed } from "vitest"; export const core = () => require("./src/core"); export const files = { ${entries.join(", ")} };`,
      resolveDir: root,
    },
    bundle: true,
    write: false,
    format: "cjs",
    platform: "node",
    target: "node20",
    external: ["fast-check"],
    plugins: [forThisRun],
    logLevel: "error",
  });
  // The same draws for every mutant, so that luck does not decide; and a failing draw is enough, the simplest one is not looked for.
  createRequire(import.meta.url)("fast-check").configureGlobal({ seed: 20261125, endOnFailure: true });
  globalThis.expectOfVitest = expect;
  const script = new Script(`(function (require, module) {${outputFiles[0].text}\n})`, { filename: "joined.cjs" });
  return () => {
    const module = { exports: {} };
    script.runInThisContext()(createRequire(import.meta.url), module);
    return module.exports;
  };
}
