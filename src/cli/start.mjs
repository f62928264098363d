// Starts a command of src/cli: `node src/cli/start.mjs recalc …`. The sources and the packages that they use are joined into one module, which is kept for the
// next start: reading them one by one would take a second, joining them half of one. Its name is a hash of all that it is made of, so it is never stale.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { debuglog } from "node:util";
import { getEnvironmentData, isMainThread, setEnvironmentData } from "node:worker_threads";

const sources = new URL("../", import.meta.url);
const packages = new URL("../../node_modules/", import.meta.url);
const kept = new URL(".cache/stillair/", packages);
const week = 7 * 24 * 3600 * 1000;

/** Tells developers where in the sources an error happened, so they are run as they are. */
const runsSources = debuglog("stillair").enabled;

/** The address of the module of a command: kept by an earlier start, else made now. */
async function findModule(entry) {
  let module;
  try {
    module = new URL(`${hashInputs(entry)}.mjs`, kept);
    if (existsSync(module)) return module.href;
  } catch {
    // What cannot be read is reported when it is joined.
  }
  const code = await joinSources(entry);
  if (module && keepModule(module, code)) return module.href;
  // Where nothing may be written, the module is passed to Node as it is.
  return `data:text/javascript;base64,${Buffer.from(code).toString("base64")}`;
}

/** A hash of the command, its place, the sources and the installed packages. */
function hashInputs(entry) {
  const hash = createHash("sha256").update(entry.href);
  hash.update(readFileSync(new URL(".package-lock.json", packages)));
  for (const path of readdirSync(sources, { recursive: true }).sort())
    if (/\.(?:ts|mjs|json)$/.test(path)) hash.update(path).update(readFileSync(new URL(path, sources)));
  return hash.digest("hex");
}

async function joinSources(entry) {
  const { build } = await import("esbuild");
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(entry)],
    bundle: true,
    write: false,
    define: { "import.meta.url": JSON.stringify(entry.href) },
    platform: "node",
    format: "esm",
    target: "node20",
    logLevel: "silent",
  });
  return outputFiles[0].contents;
}

/** Keeps a module, whole or not at all, though other starts may be doing the same; false where nothing may be written. */
function keepModule(module, code) {
  const part = new URL(`${module.href}-${process.pid}.part`);
  try {
    mkdirSync(kept, { recursive: true });
    for (const name of readdirSync(kept)) removeIfOld(new URL(name, kept));
    writeFileSync(part, code);
    renameSync(part, module);
    return true;
  } catch {
    rmSync(part, { force: true });
    return false;
  }
}

function removeIfOld(file) {
  const { mtimeMs } = statSync(file, { throwIfNoEntry: false }) ?? { mtimeMs: Infinity };
  if (mtimeMs < Date.now() - week) rmSync(file, { force: true });
}

const [name, ...given] = process.argv.slice(2);
try {
  const entry = new URL(`${name}.ts`, import.meta.url);
  if (runsSources) (await import("tsx/esm/api")).register();
  // The threads of a command share its module.
  if (isMainThread) setEnvironmentData("command", runsSources ? entry.href : await findModule(entry));
  // The command sees its own arguments, as if it had been started by itself.
  process.argv.splice(2, process.argv.length, ...given);
  await import(getEnvironmentData("command"));
} catch (problem) {
  if (!isMainThread) throw problem;
  const [line] = String(problem.errors?.[0]?.text ?? problem).split("\n");
  console.error(`${name}: the command does not start (${line.slice(0, 200)})`);
  process.exitCode = 3;
}
