// Runs the quick tests of the method for Stryker. Its runner for vitest starts a worker for each mutant, which takes some thirty times longer than the tests.
import { readFileSync, writeFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { Script } from "node:vm";
import { joined } from "./joined.mjs";

const [passed, failed] = [0, 1];
const endless = "the test does not end";
/** Where instrumented code looks for the mutant to be active, and counts what is reached. */
const shared = (globalThis.__stryker__ ??= {});

/** Left out: tests of speed, and those with so many draws that one of them would take longer than a hundred others. */
const tooLong =
  /a million rows|ten thousand sizes|360 corners|y \+ U ≤ T exactly|^simulation|Monte Carlo|covers the truth|^every random test/;

class Runner {
  #instance;
  #durations;

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    this.#instance = await joined();
  }

  async dryRun() {
    Object.assign(shared, { activeMutant: undefined, hitCount: undefined, hitLimit: undefined });
    const { core, files, listed } = this.#instance();
    core();
    // What only loading reaches is a mutant of a table of constants: all tests have to try it.
    const byLoading = { ...shared.mutantCoverage?.static };
    const tests = [];
    for (const [file, load] of Object.entries(files)) {
      // What a file computes while it lists its tests, any of them may depend on.
      shared.currentTestId = file;
      const ofFile = testsOf(file, load, listed);
      const whileListing = shared.mutantCoverage?.perTest[file] ?? {};
      delete shared.mutantCoverage?.perTest[file];
      for (const { id, name, run } of ofFile) {
        shared.currentTestId = id;
        if (shared.mutantCoverage) shared.mutantCoverage.perTest[id] = { ...whileListing };
        const [start, failure] = [Date.now(), await failureOf(run, 600_000)];
        shared.currentTestId = undefined;
        const timeSpentMs = Date.now() - start;
        const outcome = failure === undefined ? { status: passed } : { status: failed, failureMessage: failure };
        tests.push({ id, name, fileName: file, timeSpentMs, ...outcome });
      }
    }
    const { perTest = {} } = shared.mutantCoverage ?? {};
    for (const id of Object.values(perTest).flatMap(Object.keys)) delete byLoading[id];
    writeFileSync(
      durationsFile,
      JSON.stringify(Object.fromEntries(tests.map(({ id, timeSpentMs }) => [id, timeSpentMs]))),
    );
    return { status: "complete", tests, mutantCoverage: { static: byLoading, perTest } };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit, sandboxFileName }) {
    Object.assign(shared, { activeMutant: activeMutant.id, hitCount: 0, hitLimit, currentTestId: undefined });
    this.#durations ??= JSON.parse(readFileSync(durationsFile, "utf8"));
    let nrOfTests = 0;
    const killed = (id, failureMessage) =>
      failureMessage === endless || (hitLimit !== undefined && shared.hitCount > hitLimit)
        ? { status: "timeout", reason: `${id}: reached ${shared.hitCount} times` }
        : { status: "killed", killedBy: [id], failureMessage, nrOfTests };
    const wanted = testFilter && new Set(testFilter);
    // Tests that bear the name of the mutant's folder are the likeliest to fail.
    const subject = basename(dirname(sandboxFileName));
    const { files, listed } = this.#instance();
    const nearFirst = Object.entries(files).sort(
      ([one], [other]) => Number(other.includes(subject)) - Number(one.includes(subject)),
    );
    for (const [file, load] of nearFirst) {
      if (wanted && !testFilter.some((id) => id.startsWith(`${file}#`))) continue;
      let tests;
      try {
        tests = testsOf(file, load, listed);
      } catch (error) {
        return killed(testFilter?.[0] ?? file, String(error));
      }
      for (const { id, run } of tests) {
        if (wanted && !wanted.has(id)) continue;
        nrOfTests += 1;
        const failure = await failureOf(run, 2000 + 20 * (this.#durations[id] ?? 1000));
        if (failure !== undefined) return killed(id, failure);
      }
    }
    return { status: "survived", nrOfTests };
  }
}

/** The tests of a file, each with a name of its own. */
function testsOf(file, load, listed) {
  listed.length = 0;
  load();
  const seen = new Map();
  return listed
    .filter(({ name }) => !tooLong.test(name))
    .map(({ name, run }) => {
      const count = (seen.get(name) ?? 0) + 1;
      seen.set(name, count);
      return { id: `${file}#${name}${count > 1 ? ` (${count})` : ""}`, name, run };
    });
}

/** How long each test took without a mutant, left for the other workers in the copy of the project. */
const durationsFile = "durations.json";
const started = new Script("startedTest()");

/** Message of a failing test; undefined where it passes. Only a loop without an end takes longer than the milliseconds given. */
async function failureOf(run, patience) {
  globalThis.startedTest = run;
  try {
    await started.runInThisContext({ timeout: Math.ceil(patience) });
    return undefined;
  } catch (error) {
    if (error?.code === "ERR_SCRIPT_EXECUTION_TIMEOUT") return endless;
    return error instanceof Error ? error.message : String(error);
  }
}

export const strykerPlugins = [{ kind: "TestRunner", name: "quick tests of the method", factory: () => new Runner() }];
